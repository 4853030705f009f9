"""The papers' page and its two downloads, as files for one person's own eyes."""

from datetime import time
from io import BytesIO

import icalendar
import pytest
from django.core.management import call_command
from pypdf import PdfReader

from intake.models import Group, Moment, Place, Wedding
from planning import papers
from planning.press.apart import NotDrawnError
from planning.press.draw import PangoMissingError
from tests.page import Page, said

from .drawn import offered

PACK = "/w/thora-lukasz/day-pack.pdf"
CALENDAR = "/w/thora-lukasz/calendar.ics"
# What a form of ours drops may still come from elsewhere: a restored copy, a command, a shell.
ODD = "Ada\x0bLovelace\x07 \ufffe <b>&amp;</b> 50% %(place)s"


@pytest.fixture
def told(wedding):
    """A ceremony at two o'clock and one group photograph."""
    place = Place.objects.create(wedding=wedding, key="mill", name="Mäkelä’s Mill")
    day = wedding.days.get()
    Moment.objects.create(
        wedding=wedding, key="c", kind="ceremony", at=time(14), day=day, place=place
    )
    Group.objects.create(wedding=wedding, key="g", title="Žáček cousins", people="Jarmila\nBohumil")
    return wedding


def test_the_page_offers_both_papers_and_says_who_the_pack_is_for(photographer, told):
    response = photographer.get("/w/thora-lukasz/papers")
    assert CALENDAR in Page(response).links
    assert PACK in offered(response)
    assert "it is for you alone" in said(response)


def test_names_that_our_fonts_cannot_draw_are_told_before_printing(photographer, told):
    assert "Look before you print" not in said(photographer.get("/w/thora-lukasz/papers"))
    Group.objects.create(wedding=told, key="x", title="उषा शर्मा", people="Ada")
    words = said(photographer.get("/w/thora-lukasz/papers"))
    assert "Look before you print" in words
    assert "उषा शर्मा" in words


def test_the_command_tells_them_too(told, tmp_path, capsys):
    Group.objects.create(wedding=told, key="x", title="उषा शर्मा", people="Ada")
    call_command("daypack", "thora-lukasz", out=tmp_path / "f.pdf")
    assert "cannot draw this as it is written: उषा शर्मा" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("address", "kind", "name"),
    [
        (PACK, "application/pdf", "2027-06-12-thora-lukasz-day-pack.pdf"),
        (CALENDAR, "text/calendar; charset=utf-8", "2027-06-12-thora-lukasz.ics"),
    ],
)
def test_a_paper_is_a_file_to_keep_that_no_cache_keeps(photographer, told, address, kind, name):
    response = photographer.get(address)
    assert response.status_code == 200
    assert response["Content-Type"] == kind
    assert response["Content-Disposition"] == f'attachment; filename="{name}"'
    assert response["X-Content-Type-Options"] == "nosniff"
    assert "no-store" in response["Cache-Control"]
    assert "private" in response["Cache-Control"]


def test_the_pack_has_the_day_and_the_group(photographer, told):
    text = "".join(
        page.extract_text() for page in PdfReader(BytesIO(photographer.get(PACK).content)).pages
    )
    for part in ("Mäkelä’s Mill", "Žáček cousins", "Bohumil", "14:00"):
        assert part in text


def test_the_calendar_has_the_ceremony_on_its_own_clock(photographer, told):
    calendar = icalendar.Calendar.from_ical(photographer.get(CALENDAR).content)
    starts = {str(e["SUMMARY"]): e.decoded("DTSTART") for e in calendar.walk("VEVENT")}
    (ceremony,) = [at for title, at in starts.items() if title.startswith("Ceremony")]
    assert (ceremony.hour, ceremony.minute) == (14, 0)


@pytest.mark.parametrize(
    "names", [("Ada\r\nSet-Cookie: x=1", "B"), ('"; rm -rf', "/../.."), ("爱", "爱")]
)
def test_names_never_break_the_name_of_a_file(photographer, told, names):
    for partner, name in zip(told.partners.all(), names, strict=True):
        partner.name = name
        partner.save()
    for address in (PACK, CALENDAR):
        header = photographer.get(address)["Content-Disposition"]
        name = header.removeprefix('attachment; filename="').rsplit(".", 1)[0]
        assert set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-_")
        assert name.startswith("2027-06-12-")


def test_characters_that_no_paper_can_hold_break_no_paper(photographer, told):
    Group.objects.create(wedding=told, key="x", title=ODD[:100], people=ODD)
    Place.objects.filter(wedding=told).update(name=ODD[:100], wet_plan=ODD)
    Moment.objects.create(
        wedding=told, key="o", kind="other", title=ODD[:100], at=time(15), day=told.days.get()
    )
    told.partners.update(name=ODD)
    Wedding.objects.update(matters=ODD)
    for address in (PACK, CALENDAR, "/w/thora-lukasz/papers", "/w/thora-lukasz/day"):
        assert photographer.get(address).status_code == 200
    icalendar.Calendar.from_ical(photographer.get(CALENDAR).content)


@pytest.mark.parametrize(
    ("error", "words"),
    [(PangoMissingError(), "libpango"), (NotDrawnError(), "Print fewer parts at a time.")],
)
def test_what_cannot_be_drawn_is_told_on_the_page(photographer, told, monkeypatch, error, words):
    def cannot(*_):
        raise error

    monkeypatch.setattr(papers, "paper_pdf", cannot)
    response = photographer.get(PACK, follow=True)
    assert response.redirect_chain == [("/w/thora-lukasz/papers", 302)]
    assert words in said(response)
