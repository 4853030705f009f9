"""The papers for others: each with what its reader needs, one for each reader."""

import io
from dataclasses import replace
from datetime import date, time

import pytest
from pypdf import PdfReader

from intake.models import Group, Moment, Place
from planning.compute.groups import order_groups
from planning.compute.planned import Turn
from planning.compute.values import Contact
from planning.compute.values import Group as SaidGroup
from planning.paper.coordinator import at_place
from planning.paper.helper import calling_of
from planning.paper.sheets import BY_KEY
from planning.paper.subject import Reader, subject_of
from studio.models import Studio
from tests.page import said

from .agreed import agreed, shared
from .drawn import html_of, offered, pdf_of
from .plans import MILL, make_block, make_plan

PAPERS = "/w/thora-lukasz/papers"
STUDIO = Studio(name="Marigold Lane Photography", phone="07700 900199")


def pages(content):
    return [page.extract_text() for page in PdfReader(io.BytesIO(content)).pages]


def turns():
    people = (("Ana", "Bo"), ("Bo", "Cy"), ("Di",))
    groups = [SaidGroup(f"g{i}", f"Group {i}", names) for i, names in enumerate(people, 1)]
    plan = make_plan(make_block(date(2027, 6, 12), "15:00", 20, "Europe/London", kind="groups"))
    helpers = (Contact("Ragnar", side="first"), Contact("Daniel", side="second"))
    brief = replace(plan.brief, helpers=helpers, groups=tuple(groups))
    return replace(plan, brief=brief, turns=tuple(order_groups(brief)))


def test_a_helper_fetches_for_the_next_group_while_one_is_taken():
    steps = calling_of(turns(), "1").steps
    assert [step.turn.number for step in steps] == [1, 2, 3]
    assert [step.following and step.following.walks_in for step in steps][2] is None
    for step in steps[:2]:
        newcomers = set(step.following.group.people) - set(step.turn.group.people)
        assert set(step.following.walks_in) == newcomers


def test_each_helper_is_told_whose_guests_they_know_and_who_else_helps():
    one, other = calling_of(turns(), "1"), calling_of(turns(), "2")
    assert one.knows == "knows Łukasz’s side"
    assert one.others == (("Daniel", "knows Ánh’s side"),)
    assert other.others == (("Ragnar", "knows Łukasz’s side"),)


def test_a_calling_list_names_its_helper_and_where_to_be():
    text = " ".join(pages(pdf_of(turns(), STUDIO, "calling-list", Reader("1", "Ragnar"))))
    for part in ("Ragnar", "15:00", "Halvorsen Mill", "Meanwhile fetch", "07700 900199", "☐"):
        assert part in text


def test_papers_offers_a_calling_list_for_each_helper(photographer, timed):
    Group.objects.create(wedding=timed, key="g", title="Witnesses", people="Ana\nBo", wish="must")
    timed.contacts.create(key="h", listed_as="helper", name="Ragnar", side="first")
    timed.contacts.create(key="i", listed_as="helper", name="Agnieszka", side="second")
    words = said(photographer.get(PAPERS))
    assert "For Ragnar (PDF)" in words
    response = photographer.get("/w/thora-lukasz/calling-list.pdf", {"for": "2"})
    assert response["Content-Disposition"].endswith('calling-list-agnieszka.pdf"')
    assert "Agnieszka" in pages(response.content)[0]


def test_whoever_is_in_charge_sees_their_place_and_no_other():
    day, zone = date(2027, 6, 12), "Europe/London"
    flat = replace(MILL, key="flat", name="Quince Row", wet_plan="no rain here")
    plan = make_plan(
        make_block(day, "10:00", 60, zone, "ready", title="Ready", place=flat),
        make_block(day, "13:00", 20, zone, "drive", kind="travel", title="Drive to %(place)s"),
        make_block(day, "14:00", 30, zone, "vows", fixed=True),
        make_block(day, "15:00", 20, zone, "groups", kind="groups", title="Groups"),
        places=(MILL, flat),
    )
    plan = replace(plan, turns=(Turn(1, SaidGroup("g", "All", ("Ana",), extra=9), 3, extra=9),))
    here, there = at_place(plan, "mill"), at_place(plan, "flat")
    assert [block.key for block in here.days[0].blocks] == ["vows", "groups"]
    assert (here.groups, here.people) == (1, 10)
    assert [block.key for block in there.days[0].blocks] == ["ready"]
    assert (there.groups, there.people) == (0, 0)
    assert "Quince Row" not in html_of(plan, STUDIO, "coordinator", Reader("mill", "Þóra"))


@pytest.mark.parametrize("count", [1, 12, 20, 30])
def test_whoever_is_in_charge_gets_one_page(count):
    day, zone = date(2027, 6, 12), "Europe/London"
    busy = [
        make_block(day, f"{8 + i // 3:02}:{i % 3 * 20:02}", 20, zone, f"b{i}", title=f"Block {i}")
        for i in range(count)
    ]
    busy_place = replace(MILL, wet_plan="The long room " * 12, not_allowed="No flash. " * 12)
    plan = make_plan(*(replace(b, place=busy_place) for b in busy), places=(busy_place,))
    text = pages(pdf_of(plan, STUDIO, "coordinator", Reader("mill", "Þóra")))
    assert len(text) == 1
    assert f"Block {count - 1}" in text[0]
    assert "Please tell us beforehand" in text[0]


def test_others_who_work_there_see_the_couples_times_and_no_work_of_ours(photographer, timed):
    response = photographer.get("/w/thora-lukasz/suppliers.pdf")
    text = " ".join(pages(response.content))
    for part in ("14:00", "17:00", "20:30", "Orchard Barn"):
        assert part in text
    for ours in ("Drive", "Set up", "pack", "Eat, drink"):
        assert ours not in text


@pytest.mark.parametrize(
    ("language", "title", "state"),
    [
        ("en-gb", "Agreed summary", "Not confirmed yet."),
        ("fr", "Résumé convenu", "Pas encore confirmé."),
        ("pl", "Uzgodnione podsumowanie", "Jeszcze niepotwierdzone."),
    ],
)
def test_the_agreed_summary_is_in_the_couples_language(photographer, timed, language, title, state):
    timed.language = language
    timed.save()
    shared(timed)
    content = photographer.get("/w/thora-lukasz/agreed-summary.pdf").content
    text = " ".join(pages(content))
    assert title in text
    assert state in text
    reader = PdfReader(io.BytesIO(content))
    assert reader.trailer["/Root"]["/Lang"] == language
    assert title in reader.metadata.title


def test_the_agreed_summary_says_what_was_shared_and_not_what_is_now(photographer, timed):
    Place.objects.update(wet_plan="The cart shed")
    agreed(timed)
    Place.objects.update(wet_plan="The church hall")
    text = " ".join(pages(photographer.get("/w/thora-lukasz/agreed-summary.pdf").content))
    assert "The cart shed" in text
    assert "The church hall" not in text
    assert "Confirmed by Þóra Sigurðardóttir" in text


def test_a_summary_that_was_altered_is_not_printed(photographer, timed):
    agreement = agreed(timed)
    agreement.snapshot = agreement.snapshot.replace("Orchard", "Orchid")
    agreement.save()
    response = photographer.get("/w/thora-lukasz/agreed-summary.pdf", follow=True)
    assert "No summary was shared yet" in said(response)


def test_without_a_summary_papers_says_where_one_is_shared(photographer, timed):
    response = photographer.get(PAPERS)
    assert "No summary was shared yet: do so on Meeting." in said(response)
    assert "/w/thora-lukasz/agreed-summary.pdf" not in offered(response)


def test_every_paper_is_titled_and_names_the_couple(timed):
    Moment.objects.create(wedding=timed, key="x", kind="cake", at=time(19))
    Group.objects.create(wedding=timed, key="g", title="Witnesses", people="Ana", wish="must")
    agreed(timed)
    subject = subject_of(timed)
    from planning.pdf import paper_html

    for sheet in BY_KEY.values():
        html = paper_html(subject, sheet, sheet.readers(subject)[0])
        assert f"<title>{sheet.heading}, Þóra &amp; Łukasz</title>" in html
        assert html.count("<h1") == 1
