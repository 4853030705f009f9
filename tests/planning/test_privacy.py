"""Which words may stand on which paper: one table, for every field that holds words.

A new field, a new paper and a new place for an old word each fail here, until somebody has decided
who may read it.
"""

import re
from datetime import UTC, datetime

import pytest
from django.test import Client
from django.utils import timezone

from planning.paper.printing import Printing
from planning.paper.sheets import BY_KEY
from planning.paper.subject import subject_of
from planning.pdf import paper_html, paper_pdf
from planning.sheet_links import make_link, sheet_path

from .marked import FLOATS, MARKED, everything_said, fields_with_words, mark, marked_wedding

# A letter for each paper, and for whom it is printed here.
PAPERS = {
    "P": ("day-pack", ""),
    "C": ("calling-list", "1"),
    "O": ("coordinator", "here"),
    "S": ("second-photographer", ""),
    "U": ("suppliers", ""),
    "A": ("agreed-summary", ""),
    "G": ("agenda", ""),
    "W": ("their-words", ""),  # no column of its own: see may_stand
}
# The photographer's own phone page, which is no paper and has fewer parts than the day pack.
PHONE = "F"
EVERY = "PFCOSUAG"
# For each row of the marked wedding: its model, and the papers on which each field may stand.
ROWS = {
    "studio": (
        "studio.studio",
        {"name": "PCOSUAG", "phone": "COSU", "email": "", "home": "", "cannot_promise": "AG",
         "keeps": ""},
    ),
    "wedding": (
        "intake.wedding",
        {"matters": "PG", "anything_else": "PFG", "sharing_note": "PG"},
    ),
    "partner": (
        "intake.partner",
        {"name": "PFAG", "called": EVERY, "word": "PFG", "phone": "PFG", "email": "G"},
    ),
    "other partner": (
        "intake.partner",
        {"name": "PFAG", "called": EVERY, "word": "PFG", "phone": "PFG", "email": "G"},
    ),
    "day": ("intake.day", {"title": "PFOSUAG"}),
    "held": ("planning.daydecision", {"held": ""}),
    "place here": (
        "intake.place",
        {"name": EVERY, "address": "PFSUAG", "coordinator": "PFOSG", "coordinator_phone": "PFSG",
         "coordinator_email": "G", "wet_plan": "PFOAG", "not_allowed": "PFOSAG", "note": "PFG"},
    ),
    "place there": (
        "intake.place",
        {"name": "PFUAG", "address": "PFUAG", "coordinator": "PFG", "coordinator_phone": "PFG",
         "coordinator_email": "G", "wet_plan": "PFAG", "not_allowed": "PFAG", "note": "PFG"},
    ),
    "spot here": ("planning.placespot", {"latitude": "PFS", "longitude": "PFS"}),
    "spot there": ("planning.placespot", {"latitude": "PF", "longitude": "PF"}),
    "moment here": ("intake.moment", {"title": "PFOSUAG"}),
    "moment there": ("intake.moment", {"title": "PFUAG"}),
    "block": ("planning.blockdecision", {"title": "PFOSUAG"}),
    "helper": (
        "intake.contact",
        {"name": "PFCG", "role": "", "phone": "PFG", "email": ""},
    ),
    "other helper": (
        "intake.contact",
        {"name": "PFCG", "role": "", "phone": "PFG", "email": ""},
    ),
    "contact": (
        "intake.contact",
        {"name": "PFG", "role": "PFG", "phone": "PFG", "email": ""},
    ),
    "supplier": (
        "intake.contact",
        {"name": "PFG", "role": "PFG", "phone": "PFG", "email": ""},
    ),
    "group": ("intake.group", {"title": "PFCSAG", "people": "PFCSAG"}),
    "other group": ("intake.group", {"title": "PFCSAG", "people": "PFCSAG"}),
    "rule": ("planning.grouprule", {"person": ""}),
    "spelling": ("planning.sameperson", {"name": "", "other": ""}),
    "wanted": ("intake.musthave", {"text": "PFAG"}),
    "care": ("intake.carenote", {"person": "PFG", "other": "PFG", "note": "PFG"}),
    "picture": ("intake.picture", {"line": "PG"}),
    "our picture": ("planning.studiopicture", {"line": "P"}),
    "question": ("intake.question", {"text": "PG", "hint": "", "choices": ""}),
    "answer": ("intake.answer", {"asked": "PG", "value": "PG"}),
    "kind of day": ("planning.kindofday", {"title": ""}),
    "block of a kind": ("planning.kindblock", {"title": ""}),
    "draft": ("intake.stepstate", {"draft": ""}),
    "tick": ("planning.readytick", {"by_name": "", "note": ""}),
    "line of the ready list": ("planning.readyitem", {"title": "G", "why": ""}),
    "policy": ("planning.policy", {"insurer": "", "number": "", "phone": ""}),
    "thing of the kit": ("planning.kititem", {"title": "PG", "owner_from": ""}),
    "experience": ("planning.experience", {"who": "", "beside": "", "learnt": ""}),
    "entry": ("planning.givenentry", {"summary": ""}),
    "note": ("planning.answernote", {"about": "", "text": "G"}),
    "note for them": ("planning.answernote", {"about": "", "text": "AG"}),
    "point": ("planning.meetingpoint", {"text": "G", "note": "G"}),
    "point for them": ("planning.meetingpoint", {"text": "A", "note": "A"}),
    "agreement": ("planning.agreement", {"confirmed_by": "A"}),
}  # fmt: skip
# What nobody types as words: keys, codes, names of files, what is chosen from a list, digests.
NO_WORDS = {
    ("intake.answer", "kind"), ("intake.carenote", "key"), ("intake.contact", "key"),
    ("intake.day", "key"), ("intake.group", "key"), ("intake.moment", "key"),
    ("intake.musthave", "key"), ("intake.partner", "key"), ("intake.place", "key"),
    ("intake.place", "uses"), ("intake.question", "key"), ("intake.question", "step"),
    ("intake.stepstate", "slug"), ("intake.wedding", "public_id"), ("intake.wedding", "zone"),
    ("intake.wedding", "link_nonce"), ("intake.wedding", "language"),
    ("intake.wedding", "not_asked"), ("planning.agreement", "digest"),
    ("planning.agreement", "snapshot"), ("planning.answernote", "key"),
    ("planning.answernote", "settled_as"), ("planning.blockdecision", "follows"),
    ("planning.blockdecision", "key"), ("planning.blockdecision", "kind"),
    ("planning.calendaraddress", "digest"), ("planning.calendaraddress", "key"),
    ("planning.calendaraddress", "nonce"),
    ("planning.daydecision", "order"), ("planning.decisions", "countries"),
    ("planning.decisions", "hand_order"), ("planning.decisions", "style"),
    ("planning.decisions", "visit_block"), ("planning.givenentry", "digest"),
    ("planning.givenentry", "ends"), ("planning.givenentry", "starts"),
    ("planning.experience", "key"),
    *(("planning.kititem", field)
      for field in ("card_form", "second_form", "carried", "key", "mount", "power")),
    ("planning.kindblock", "key"), ("planning.kindblock", "kind"),
    ("planning.kindblock", "leads"), ("planning.kindblock", "moment"),
    ("planning.kindblock", "use"), ("planning.kindofday", "key"),
    ("planning.meetingpoint", "key"), ("planning.placespot", "skyline"),
    ("planning.policy", "countries"), ("planning.policy", "key"), ("planning.readyitem", "key"),
    ("planning.readytick", "key"), ("planning.sheetlink", "key"),
    ("planning.sheetlink", "nonce"), ("planning.sheetlink", "person"),
    ("studio.studio", "insurance"), ("studio.studio", "language"),
    ("studio.studio", "zone"),
    *((model, field) for model in ("intake.picture", "planning.studiopicture")
      for field in ("key", "file", "small", "digest")),
}  # fmt: skip


@pytest.fixture
def subject(db):
    return subject_of(marked_wedding(ROWS))


def test_every_field_that_holds_words_is_in_the_table():
    told = {(model, field) for model, fields in ROWS.values() for field in fields}
    assert fields_with_words() - NO_WORDS <= told
    assert not NO_WORDS & told


def test_every_paper_is_in_the_table():
    assert {paper for paper, _reader in PAPERS.values()} == set(BY_KEY)


@pytest.mark.parametrize("letter", PAPERS)
def test_a_paper_says_what_it_may_and_nothing_else(subject, letter):
    sheet, reader = paper_for(subject, letter)
    assert_only_what_it_may(letter, everything_said(paper_pdf(subject, sheet, reader)))


@pytest.mark.parametrize("letter", PAPERS)
def test_the_pocket_paper_says_no_more(subject, letter):
    sheet, reader = paper_for(subject, letter)
    html = paper_html(subject, sheet, reader, Printing(size="a6"))
    assert_only_what_it_may(letter, html.casefold())


def test_the_photographers_phone_says_what_it_may_and_nothing_else(subject, photographer):
    page = photographer.get(f"/w/{subject.wedding.public_id}/phone").content.decode()
    assert_only_what_it_may(PHONE, squeezed(page))


def test_what_is_private_on_the_phone_is_behind_a_word_that_says_so(subject, photographer):
    page = photographer.get(f"/w/{subject.wedding.public_id}/phone").content.decode()
    folded = re.search(r'<details id="care"><summary>Private.*?</details>', page, re.DOTALL)[0]
    for field in ("person", "other", "note"):
        assert mark("care", field) in folded
        assert mark("care", field) not in page.replace(folded, "")


def paper_for(subject, letter):
    paper, key = PAPERS[letter]
    readers = BY_KEY[paper].readers(subject)
    return BY_KEY[paper], next(each for each in readers if each.key == key)


def assert_only_what_it_may(letter, said):
    found = {each for each in MARKED if shown(mark(*each)) in said}
    allowed = {
        (row, name)
        for row, (_model, fields) in ROWS.items()
        for name, papers in fields.items()
        if may_stand(letter, row, papers)
    }
    assert found - allowed == set(), "nobody decided that these may stand on it"
    assert allowed - found == set(), "these should stand on it, and do not"


def may_stand(letter, row, papers):
    """The couple's own copy holds what the agenda has of their words, and what the summary says."""
    if letter != "W":
        return letter in papers
    return "A" in papers or ("G" in papers and ROWS[row][0].startswith("intake."))


@pytest.mark.parametrize(("letter", "person"), [("S", ""), ("C", "helper")])
def test_a_link_for_a_phone_says_what_the_paper_of_that_reader_says(
    subject, letter, person, monkeypatch
):
    monkeypatch.setattr(timezone, "now", lambda: datetime(2027, 6, 12, 8, tzinfo=UTC))
    sheet, _key = PAPERS[letter]
    make_link(subject.wedding, sheet, person, by=1)
    page = Client().get(sheet_path(subject.wedding.sheet_links.get()), follow=True)
    assert page.status_code == 200
    assert_only_what_it_may(letter, squeezed(page.content.decode()))


def squeezed(page):
    return re.sub(r"\s+", "", page).casefold()


def shown(word):
    return str(FLOATS[word]) if word in FLOATS else word.casefold()


def test_the_marks_are_told_apart(subject):
    words = [mark(*each) for each in MARKED]
    assert len(set(words)) == len(words) > 80
