"""The visit's page: what it offers, and what pressing a button keeps."""

import re
from datetime import UTC, date, datetime, time
from types import SimpleNamespace
from urllib.parse import urlencode

import icalendar
import pytest
from pypdf import PdfReader

from intake.models import Moment, Place
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.models import Decisions, PlaceSpot
from studio.models import Studio
from tests.page import Page, fields, said
from tests.planning.plans import calendar_of

from .drawn import pdf_of

VISIT = "/w/thora-lukasz/visit"
EVERY = ["getting_ready", "ceremony", "groups", "portraits", "meal", "party"]


@pytest.fixture
def barn(wedding, monkeypatch):
    """An April wedding, a week after British clocks went forward; today is New Year's Day."""
    wedding.days.update(date=date(2027, 4, 10))
    place = Place.objects.create(wedding=wedding, key="barn", name="Orchard Barn", uses=EVERY)
    Moment.objects.create(
        wedding=wedding, day=wedding.days.get(), kind="ceremony", at=time(14), place=place, key="c"
    )
    PlaceSpot.objects.create(place=place, latitude=52.34, longitude=-2.61)
    set_clock(monkeypatch, datetime(2027, 1, 1, 12, tzinfo=UTC))
    return place


def set_clock(monkeypatch, now):
    # In this page alone: the session that signs the photographer in has a clock too.
    monkeypatch.setattr("planning.visit_views.timezone", SimpleNamespace(now=lambda: now))


def buttons(response):
    return re.findall(r'name="at" value="([^"]+)"', response.content.decode())


def press(client, number=0):
    page = client.get(VISIT)
    sent = fields(client, VISIT) | {"at": buttons(page)[number]}
    return client.post(VISIT, sent)


def test_the_window_today_and_the_best_day_are_offered(photographer, barn):
    page = photographer.get(VISIT)
    words = said(page)
    assert "Friday 1 January 2027 today" in words
    assert "Best day: Saturday 3 April 2027" in words
    assert "Saturday 20 March 2027" in words
    assert "Sunday 4 April 2027" not in words
    assert "Portraits of the two at" in words


def test_before_the_clocks_change_the_visit_is_an_hour_earlier(photographer, barn):
    hours = {}
    for each in buttons(photographer.get(VISIT)):
        at = datetime.fromisoformat(each)
        hours.setdefault(at.date(), at.hour * 60 + at.minute)
    moved = hours[date(2027, 3, 28)] - hours[date(2027, 3, 27)]
    assert 58 <= moved <= 61


def test_looking_changes_nothing(photographer, barn):
    before = list(Decisions.objects.values())
    photographer.get(f"{VISIT}?{urlencode({'block': 'c', 'date': '2027-05-01'})}")
    assert list(Decisions.objects.values()) == before


def test_any_block_and_any_date_can_be_asked_for(photographer, barn):
    words = said(photographer.get(f"{VISIT}?{urlencode({'block': 'c', 'date': '1 May 2027'})}"))
    assert "Saturday 1 May 2027" in words
    assert "Ceremony at 14:13, Orchard Barn" in words


@pytest.mark.parametrize(
    "asked",
    [{"block": "none"}, {"place": "none"}, {"date": "31 June"}, {"date": "0001-01-01"},
     {"date": "9999-12-31"}, {"block": "\0"}],
)  # fmt: skip
def test_what_is_asked_wrongly_is_told(photographer, barn, asked):
    page = photographer.get(f"{VISIT}?{urlencode(asked)}")
    assert page.status_code == 200
    assert "mending" in said(page)


def test_a_button_keeps_time_place_and_block(photographer, barn, wedding):
    response = press(photographer)
    assert response["Location"] == VISIT
    decisions = Decisions.objects.get(wedding=wedding)
    assert decisions.visit_place == barn
    assert decisions.visit_block.endswith("portraits")
    assert decisions.visit_at.second == 0
    assert decisions.visit_at.astimezone(UTC).date() == date(2027, 4, 3)
    words = said(photographer.get(VISIT))
    assert "The visit is kept: Saturday 3 April 2027" in words
    assert "The two suns are 2.6° apart." in words


def test_keeping_the_booking_afterwards_leaves_the_visit_as_it_is(photographer, barn, wedding):
    press(photographer)
    before = Decisions.objects.values().get()
    booking = "/w/thora-lukasz/booking"
    assert photographer.post(booking, fields(photographer, booking)).status_code == 302
    assert Decisions.objects.values().get() == before


@pytest.mark.parametrize(
    "sent",
    [
        {"at": ""}, {"at": "soon"}, {"at": "2027-04-03T15:00:00"}, {"place": "theirplace"},
        {"at": "0001-01-01T00:00:00+00:00"}, {"at": "9999-12-31T23:59:59-12:00"},
        {"block": "x" * 81}, {"block": "\0"}, {"place": "\0"},
    ],
)  # fmt: skip
def test_a_forged_button_changes_nothing_and_is_told(photographer, barn, other, sent):
    page = fields(photographer, VISIT) | {"at": "2027-04-03T15:00:00+01:00"} | sent
    response = photographer.post(VISIT, page, follow=True)
    assert "Nothing has changed" in said(response)
    assert Decisions.objects.filter(visit_at=None).count() == Decisions.objects.count()


def test_when_the_weeks_before_are_over_only_today_and_what_is_typed_are_offered(
    photographer, barn, monkeypatch
):
    set_clock(monkeypatch, datetime(2027, 4, 8, 12, tzinfo=UTC))
    page = photographer.get(VISIT)
    assert "Thursday 8 April 2027 today" in said(page)
    assert "Best day" not in said(page)
    set_clock(monkeypatch, datetime(2027, 5, 8, 12, tzinfo=UTC))
    assert "The weeks before this day are over" in said(photographer.get(VISIT))


def test_what_is_missing_is_said_with_the_way_to_mend_it(photographer, wedding):
    Moment.objects.all().delete()
    wedding.days.get().hours.delete()
    assert "No place is listed yet" in said(photographer.get(VISIT))
    place = wedding.places.create(key="barn", name="Orchard Barn", uses=["ceremony"])
    assert "No time is known yet" in said(photographer.get(VISIT))
    place.delete()


def test_a_place_without_coordinates_is_led_to_the_map(photographer, barn):
    PlaceSpot.objects.all().delete()
    page = photographer.get(VISIT)
    assert "Light needs the place’s coordinates" in said(page)
    assert "/w/thora-lukasz/map" in Page(page).links


def test_the_visit_is_in_the_calendar_with_its_place_and_what_to_look_at(
    photographer, barn, wedding
):
    press(photographer)
    events = icalendar.Calendar.from_ical(calendar_of(plan_wedding(load_brief(wedding)))).walk(
        "VEVENT"
    )
    (visit,) = [e for e in events if str(e["SUMMARY"]).startswith("Venue visit")]
    assert str(visit["LOCATION"]) == "Orchard Barn"
    assert (visit["GEO"].latitude, visit["GEO"].longitude) == (52.34, -2.61)
    words = str(visit["DESCRIPTION"])
    for each in ("Portraits of the two", "2.6° apart", "groups will stand", "shade", "Sockets",
                 "wet-weather", "way to walk", "Step-free"):  # fmt: skip
        assert each in words


def test_the_visit_and_the_light_are_in_the_day_pack(photographer, barn, wedding, tmp_path):
    press(photographer)
    path = tmp_path / "pack.pdf"
    path.write_bytes(pdf_of(plan_wedding(load_brief(wedding)), Studio(name="S")))
    reader = PdfReader(path)
    text = " ".join(" ".join(p.extract_text() for p in reader.pages).split())
    for each in ("Venue visit", "Saturday 3 April 2027", "2.6° apart", "Common practice, no source",
                 "Golden light, evening", "Full night from", "Falls on them"):  # fmt: skip
        assert each in text
    alternatives = re.findall(r"The sun.s path at Orchard Barn", str(list(alts(reader))))
    assert alternatives


def alts(reader):
    """The alternative text of every figure in the file's structure."""
    todo, seen = [reader.trailer["/Root"]["/StructTreeRoot"]], 0
    while todo and seen < 5000:
        node, seen = todo.pop(), seen + 1
        node = node.get_object() if hasattr(node, "get_object") else node
        if not isinstance(node, dict):
            continue
        if "/Alt" in node:
            yield str(node["/Alt"])
        kids = node.get("/K", [])
        kids = kids.get_object() if hasattr(kids, "get_object") else kids
        todo += kids if isinstance(kids, list) else [kids]
