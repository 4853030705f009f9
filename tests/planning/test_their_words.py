"""A couple's own copy: all that they entered, under keys that stay, and nothing private of ours."""

import hashlib
import io
import json

import pytest
from django.apps import apps
from pypdf import PdfReader

from intake import store
from intake.models import Answer, Picture, Place, StepState
from planning import their_words_views
from planning.agreements import object_to
from planning.press.apart import NotDrawnError
from planning.their_words import ALONE, LISTS, SHARING, their_words
from tests.asked import ask
from tests.page import said
from tests.sent_files import jpeg

from .agreed import agreed
from .marked import MARKED, mark, marked_wedding
from .test_privacy import ROWS

AT = "/q/thora-lukasz/"
JSON, PDF, READ = f"{AT}words.json", f"{AT}words.pdf", f"{AT}read-through"
# What is not in their copy: what links rows, and what is the studio's and not theirs.
NOT_THEIRS = {
    "wedding": {"id", "link_nonce", "created_at", "not_asked", "public_id", "zone", "language"},
    "picture": {"file", "small", "digest"},  # where the pictures lie
    "question": set(),  # the studio's; an answer carries the words in which it was asked
    "answer": {"question", "asked", "kind", "value"},  # under own_answers
    "stepstate": {"slug", "saved_at", "draft"},  # under pages
}
PLUMBING = {"id", "wedding", "position", "removed_at"}
# Rows that the couple typed, and what of the photographer's they were shown in the summary.
THEIRS = {row for row, (model, _f) in ROWS.items() if model.startswith("intake.")} - {"question"}
SHOWN = {("studio", "name"), ("studio", "cannot_promise"), ("block", "title")}
SHOWN |= {("note for them", "text"), ("point for them", "text"), ("point for them", "note")}
SHOWN |= {("agreement", "confirmed_by")}


def copy_of(client, address=JSON):
    response = client.get(address)
    assert response["Content-Disposition"].startswith("attachment")
    assert "no-store" in response["Cache-Control"]
    return json.loads(response.content)


def test_every_field_of_the_couples_tables_is_in_it_or_is_not_theirs():
    told = {model: set(fields) for model, fields in LISTS.values()}
    for model in apps.get_app_config("intake").get_models():
        name = model._meta.model_name
        fields = {field.name for field in model._meta.concrete_fields} - PLUMBING
        if name == "question":
            continue
        there = told.get(model, set()) | NOT_THEIRS.get(name, set())
        there |= {*ALONE, *SHARING} if name == "wedding" else set()
        assert fields - there == set(), f"{name}: in their copy, or in NOT_THEIRS"


def test_it_holds_every_word_of_theirs_and_no_private_word(db):
    wedding = marked_wedding(ROWS)
    text = json.dumps(their_words(wedding)).casefold()
    found = {each for each in MARKED if mark(*each).casefold() in text}
    theirs = {each for each in MARKED if each[0] in THEIRS}
    assert found == theirs | SHOWN


def test_its_keys_are_those_that_were_promised(couple, wedding):
    assert list(copy_of(couple)) == [
        "what", "form", "made_at", "studio", "wedding", "sharing", "partners", "days", "places",
        "moments", "contacts", "groups", "must_haves", "care_notes", "pictures", "taken_out",
        "own_answers", "pages", "summaries", "not_right",
    ]  # fmt: skip
    assert copy_of(couple)["form"] == 1


def test_rows_are_told_as_they_were_typed(couple, timed):
    timed.groups.create(key="g", title="Witnesses", people="Ana\nBø", wish="must")
    copy = copy_of(couple)
    assert copy["moments"][0] == {
        "key": "vows", "day": timed.days.get().key, "kind": "ceremony", "title": "",
        "at": "14:00", "unknown": False, "place": None,
    }  # fmt: skip
    assert copy["groups"][0]["people"] == ["Ana", "Bø"]
    assert [partner["name"] for partner in copy["partners"]][1] == "Łukasz Wiśniewski"


def test_what_they_took_out_and_is_still_held_is_told_apart(couple, timed):
    Place.objects.get(key="barn").take_out()  # a drive leads there
    copy = copy_of(couple)
    assert copy["places"] == []
    assert [place["name"] for place in copy["taken_out"]["places"]] == ["Orchard Barn"]


def test_what_was_typed_and_not_kept_is_in_it(couple, wedding):
    StepState.objects.create(wedding=wedding, slug="people", draft={"helpers-0-name": ["Ragn"]})
    (page,) = copy_of(couple)["pages"]
    assert page["not_kept_yet"] == [{"at": "", "typed": {"helpers-0-name": ["Ragn"]}}]


def test_a_file_is_told_by_its_name_and_not_where_it_lies(couple, wedding):
    value = {"file": "x/0a.pdf", "small": "", "digest": "d", "called": "list.pdf"}
    ask(wedding, "file", answer=value)
    assert Answer.objects.get().value["file"] == "x/0a.pdf"
    assert copy_of(couple)["own_answers"][0]["value"] == "list.pdf"


def test_a_summary_is_in_it_word_for_word(couple, timed):
    version = agreed(timed)
    object_to(timed, "1", "p1", "The meal is later.")
    copy = copy_of(couple)
    (summary,) = copy["summaries"]
    assert hashlib.sha256(summary["text"].encode()).hexdigest() == summary["sha256"]
    assert summary["confirmed_by"] == version.confirmed_by
    assert copy["not_right"][0]["text"] == "The meal is later."
    assert copy["not_right"][0]["of_summary"] == 1


def test_as_many_queries_for_many_rows_as_for_one(couple, timed, django_assert_max_num_queries):
    for number in range(30):
        timed.moments.create(key=f"m{number}", kind="other", day=timed.days.get())
    with django_assert_max_num_queries(30):
        copy_of(couple)


def test_both_are_found_where_the_answers_are_read_through(couple, photographer, wedding):
    page = couple.get(READ).content.decode()
    assert f'href="{JSON}"' in page
    assert f'href="{PDF}"' in page
    papers = photographer.get("/w/thora-lukasz/papers").content.decode()
    assert f'href="{JSON}"' in papers
    assert "/w/thora-lukasz/their-words.pdf" in papers


def test_the_pdf_says_what_the_page_says(couple, timed):
    timed.carenotes.create(key="c", person="Ragnar", kind="seat", note="Bad knee")
    response = couple.get(PDF)
    assert response["Content-Type"] == "application/pdf"
    reader = PdfReader(io.BytesIO(response.content))
    text = " ".join(page.extract_text() for page in reader.pages)
    assert "All that you entered" in text
    assert "Bad knee" in text
    assert "pdfuaid" in reader.xmp_metadata.stream.get_data().decode()


def test_the_pdf_shows_each_picture_that_they_sent_and_that_is_there(couple, wedding, kept_files):
    for number, line in enumerate(["", "Light like this", "Gone"]):
        row = store.put(store.redrawn(jpeg(number)), wedding.public_id, f"d{number}").as_row()
        Picture.objects.create(wedding=wedding, key=f"k{number}", line=line, **row)
    store.drop(row["small"])
    pages = PdfReader(io.BytesIO(couple.get(PDF).content)).pages
    assert sum(len(page.images) for page in pages) == 2
    assert "Light like this" in (text := " ".join(page.extract_text() for page in pages))
    assert "Gone" in text


@pytest.mark.parametrize("language", ["de", "pl"])
def test_the_pdf_is_in_their_language(couple, wedding, language):
    type(wedding).objects.update(language=language)
    reader = PdfReader(io.BytesIO(couple.get(PDF).content))
    assert reader.trailer["/Root"]["/Lang"] == language


def test_where_the_pdf_cannot_be_drawn_the_page_says_so(couple, wedding, monkeypatch):
    def refuse(*_args):
        raise NotDrawnError

    monkeypatch.setattr("planning.their_words_views.paper_pdf", refuse)
    assert "The other file holds the same words" in said(couple.get(PDF, follow=True))


def test_a_couple_has_one_pdf_drawn_at_a_time(couple, wedding):
    with their_words_views.DRAWING.one("thora-lukasz"):
        assert "could not be made just now" in said(couple.get(PDF, follow=True))
