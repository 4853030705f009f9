"""The second photographer's sheet: their part of the day, and none of the private words."""

import io
import re
from dataclasses import replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from pypdf import PdfReader

from intake.models import Moment, Place
from planning.compute.planned import Turn
from planning.compute.values import (
    Care,
    Contact,
    Group,
    MustHave,
    Partner,
)
from planning.compute.values import (
    Moment as SaidMoment,
)
from planning.models import BlockDecision
from planning.second_page import has_second, second_sheet
from studio.models import Studio
from tests.page import said

from .drawn import html_of, offered, pdf_of
from .plans import MILL, make_block, make_plan

DAY = date(2027, 6, 12)
LONDON = "Europe/London"
STUDIO = Studio(name="Marigold Lane Photography", phone="07700 900199", email="private-studio-mail")
FLAT = replace(MILL, key="flat", name="Quince Row", address="5, Quince Row", coordinator=None)
HOTEL = replace(MILL, key="hotel", name="Hotel Beyond", address="Beyond 1")
SHEET = "/w/thora-lukasz/second-photographer.pdf"


def london(at, key, **more):
    return make_block(DAY, at, 30, LONDON, key, **more)


def shared_plan(groups="second", **brief):
    """She is at the mill and the hotel; the second photographer at the flat, then at the mill."""
    vows = london("14:00", "vows", who="both", fixed=True, note="private-block-note")
    hers = london("10:00", "ready", title="One side", place=HOTEL)
    theirs = london("10:00", "other", title="Other side", who="second", place=FLAT)
    drive = london("13:00", "drive-vows", kind="travel", title="Drive to %(place)s", who="second")
    taken = london("15:00", "g", kind="groups", title="Groups", who=groups)
    blocks = (theirs, drive, vows) + ((taken,) if groups != "me" else ())
    plan = make_plan(hers, vows, **brief)
    (day,) = plan.days
    turns = (Turn(1, Group("g1", "Žáček cousins", ("Ana", "Bo")), 3.5),)
    return replace(plan, turns=turns, days=(replace(day, second=replace(day, blocks=blocks)),))


def words(plan):
    return " ".join(re.sub("<[^>]+>", " ", html_of(plan, STUDIO, "second-photographer")).split())


def test_their_blocks_drives_places_and_who_is_in_charge_are_there():
    text = words(shared_plan())
    for part in (
        "10:00 Other side Quince Row",
        "13:00 Drive to Halvorsen Mill",
        "14:00 Ceremony Halvorsen Mill both of us",
        "5, Quince Row",
        "Þóra Žáček 01632 960123",
        "Marigold Lane Photography 07700 900199",
        "Saturday 12 June 2027",
    ):
        assert part in text


def test_what_only_the_photographer_does_and_where_is_not():
    text = words(shared_plan())
    assert "One side" not in text
    assert "Hotel Beyond" not in text


def test_the_groups_are_there_only_if_they_take_them_and_by_their_own_clock():
    assert "Žáček cousins" not in words(shared_plan(groups="me"))
    sheet = second_sheet(shared_plan())
    assert "Žáček cousins" in words(shared_plan())
    assert sheet.turns[0].starts == datetime(2027, 6, 12, 15, 5, tzinfo=ZoneInfo(LONDON))


PRIVATE = {
    "partners": (
        Partner("Łukasz private-full-name", "Łukasz", "groom", "private-phone", "private-mail"),
        Partner("Ánh private-full-name", "Ánh", "", "private-phone", "private-mail"),
    ),
    "places": (
        replace(
            MILL,
            note="private-place-note",
            wet_plan="private-wet-plan",
            coordinator=Contact(
                "Þóra Žáček", "private-role", phone="01632 960123", email="private-mail",
                note="private-note",
            ),
        ),
    ),
    "contacts": (Contact("private-contact", "private-role", phone="private-phone"),),
    "helpers": (Contact("private-helper", phone="private-phone"),),
    "suppliers": (Contact("private-supplier", phone="private-phone"),),
    "must_haves": (MustHave("private-must-have", "private-kind", "private-says"),),
    "cares": (Care("seat", "private-person", "private-other", "private-note", "private-says"),),
    "matters": "private-matters",
    "anything_else": "private-else",
    "home": "private-home",
    "loose_moments": (SaidMoment("m", "other", "private-moment", time(3), note="private-note"),),
}  # fmt: skip


def test_no_private_word_reaches_the_sheet():
    """Every text of a brief that is not on the list of what may stand there."""
    plan = shared_plan(**PRIVATE)
    mill = PRIVATE["places"][0]
    (day,) = plan.days
    at_mill = tuple(replace(b, place=mill) if b.place == MILL else b for b in day.second.blocks)
    plan = replace(plan, days=(replace(day, second=replace(day.second, blocks=at_mill)),))
    html = html_of(plan, STUDIO, "second-photographer")
    assert "Halvorsen Mill" in html
    assert "01632 960123" in html
    assert "private" not in html


def test_the_file_has_no_private_word_either_and_is_drawn():
    pdf = PdfReader(io.BytesIO(pdf_of(shared_plan(**PRIVATE), STUDIO, "second-photographer")))
    text = "".join(page.extract_text() for page in pdf.pages)
    assert "Other side" in text
    assert "private" not in text
    assert "private" not in str(pdf.metadata)


def test_what_is_different_in_rain_is_told_and_only_that():
    plan = shared_plan()
    (day,) = plan.days
    first, *others = day.second.blocks
    wet = replace(day.second, blocks=(replace(first, place=MILL), *others))
    plan = replace(plan, days=(replace(day, wet=replace(day, second=wet)),))
    (sheet_day,) = second_sheet(plan).days
    assert [side.fair.key for side in sheet_day.rain] == ["other"]
    assert "Other side 10:00–10:30 Halvorsen Mill" in words(plan)


def test_without_a_second_photographer_there_is_none():
    assert not has_second(make_plan(london("14:00", "vows")))
    assert second_sheet(make_plan(london("14:00", "vows"))).days == []


@pytest.fixture
def told(wedding):
    day = wedding.days.get()
    place = Place.objects.create(wedding=wedding, key="mill", name="Mäkelä’s Mill")
    for key, kind, at in (("c", "ceremony", time(14)), ("r", "getting_ready", time(11))):
        Moment.objects.create(wedding=wedding, key=key, kind=kind, at=at, day=day, place=place)
    return wedding


def test_papers_offer_the_sheet_only_where_there_is_a_second_photographer(photographer, told):
    assert SHEET not in offered(photographer.get("/w/thora-lukasz/papers"))
    response = photographer.get(SHEET, follow=True)
    assert "No block is the second photographer’s yet" in said(response)
    BlockDecision.objects.create(day=told.days.get(), key="c", who="both")
    assert SHEET in offered(photographer.get("/w/thora-lukasz/papers"))
    response = photographer.get(SHEET)
    assert response["Content-Type"] == "application/pdf"
    assert response["Content-Disposition"].endswith('-second-photographer.pdf"')
    assert "no-store" in response["Cache-Control"]
    text = "".join(p.extract_text() for p in PdfReader(io.BytesIO(response.content)).pages)
    assert "14:00" in text
