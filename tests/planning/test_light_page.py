"""The Light screen: what it shows, and what it says where it cannot."""

import re

import pytest

from intake.models import Day, Moment, Place
from planning.models import PlaceSpot
from tests.page import said

LIGHT = "/w/thora-lukasz/light"


@pytest.fixture
def barn(wedding):
    place = Place.objects.create(
        wedding=wedding, name="Orchard Barn", key="barn",
        uses=["getting_ready", "ceremony", "groups", "portraits", "meal", "party"],
    )  # fmt: skip
    Moment.objects.create(
        wedding=wedding, day=wedding.days.get(), kind="ceremony", at="14:00", place=place, key="c"
    )
    PlaceSpot.objects.create(
        place=place, latitude=52.34, longitude=-2.61, ceremony_facing=20, group_facing=115,
        skyline=[[240, 2], [300, 4]],
    )  # fmt: skip
    return place


def test_a_place_has_its_drawing_its_boundaries_its_blocks_and_its_footnote(photographer, barn):
    page = photographer.get(LIGHT)
    words = said(page)
    assert page.content.count(b'class="sunpath"') == 1
    assert page.content.count(b'class="ribbon"') == 1
    for each in (
        "Sunset about half past nine in the evening",
        "The sun goes behind the skyline",
        "Moon: waxing gibbous, 65 % lit",
        "No night: the sun sinks to 14° below level",
        "a convention, no standard",
        "independent calculation differs by at most",
        "move them by a minute or more",
        "Never look at the sun through a viewfinder",
        "the couple face north-north-east, 20°",
    ):
        assert each in words


def test_what_is_wrong_with_the_light_is_told_here(photographer, barn):
    assert "out of doors the sun is behind the two" in said(photographer.get(LIGHT))


def test_ids_on_the_page_are_each_their_own(photographer, barn, wedding):
    Day.objects.create(wedding=wedding, date="2027-06-13")
    html = photographer.get(LIGHT).content.decode()
    ids = re.findall(r'<pattern id="(hidden[^"]+)"', html)
    assert len(ids) == len(set(ids)) == 2


def test_a_wedding_without_places_is_led_to_them(photographer, wedding):
    assert "No place is listed yet." in said(photographer.get(LIGHT))


def test_a_wedding_without_a_date_is_led_to_the_booking(photographer, wedding):
    wedding.days.all().delete()
    page = photographer.get(LIGHT)
    assert "no date yet" in said(page)
    assert b"/w/thora-lukasz/booking" in page.content


def test_a_place_without_coordinates_is_led_to_the_map(photographer, barn):
    PlaceSpot.objects.all().delete()
    page = photographer.get(LIGHT)
    assert "Light needs the place’s coordinates." in said(page)
    assert b'class="sunpath"' not in page.content


def test_a_year_that_is_a_slip_is_asked_about(photographer, barn, wedding):
    wedding.days.update(date="0203-06-12")
    assert "is the year right?" in said(photographer.get(LIGHT))
