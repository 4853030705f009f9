"""The meeting on paper: what is open, every answer, room to write, and how the summary stands."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from intake.models import Place
from planning.models import MeetingPoint

from .agreed import agreed

AGENDA = "/w/thora-lukasz/agenda.pdf"
PACK = "/w/thora-lukasz/day-pack.pdf"


def read(client, address):
    reader = PdfReader(BytesIO(client.get(address).content))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def test_it_holds_what_is_open_every_answer_and_what_they_may_expect(photographer, timed):
    MeetingPoint.objects.create(wedding=timed, key="k", text="Sparklers at midnight?")
    timed.answer_notes.create(key="places.places.barn", about="Orchard Barn", text="Ring Ríona")
    text = read(photographer, AGENDA)
    for part in (
        "Planning meeting",
        "Nothing agreed in writing yet",
        "Sparklers at midnight?",
        "There is no phone number for either partner.",
        "Orchard Barn",
        "Ring Ríona",
        "14:00 to about",
        "Nobody can promise the weather",
        "To do next, by whom",
    ):
        assert part in text
    assert (
        text.index("Still open") < text.index("The two of you") < text.index("What you can expect")
    )


def test_it_is_a_tagged_file_with_a_title_that_no_cache_keeps(photographer, timed):
    response = photographer.get(AGENDA)
    assert "no-store" in response["Cache-Control"]
    assert response["Content-Disposition"].endswith('thora-lukasz-agenda.pdf"')
    reader = PdfReader(BytesIO(response.content))
    assert "Planning meeting" in reader.metadata.title
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_object().get_data()


def test_changes_since_it_was_agreed_stand_on_the_agenda_and_the_packs_cover(photographer, timed):
    assert "Agreed summary" not in read(photographer, PACK)
    agreed(timed)
    Place.objects.update(wet_plan="The cart shed")
    assert "if it rains: now The cart shed" in read(photographer, AGENDA)
    cover = PdfReader(BytesIO(photographer.get(PACK).content)).pages[0].extract_text()
    assert ", 1 change since." in cover


def test_a_wedding_with_nothing_in_it_has_an_agenda(photographer, wedding):
    wedding.days.all().delete()
    assert photographer.get(AGENDA).status_code == 200


@pytest.mark.parametrize("text", ["<b>bold</b> & %s", "Þóra ‮ żółć"])
def test_any_text_is_printed_as_text(photographer, timed, text):
    MeetingPoint.objects.create(wedding=timed, key="k", text=text)
    assert photographer.get(AGENDA).status_code == 200
