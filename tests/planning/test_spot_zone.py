"""The zone proposed for a spot, against the places that the tz database names."""

import re
from datetime import date, timedelta
from importlib.resources import files

import pytest

from planning.compute.values import Spot
from planning.spot_zone import are_one, same_clock, usual_offset, zone_at

# The tz database's own list of zones with the place each is named for (zone.tab, in tzdata).
ZONE_TAB = (files("tzdata") / "zoneinfo" / "zone.tab").read_text()
DISPUTED = {"Asia/Urumqi"}  # two clocks are kept there side by side, as zone.tab says


def degrees(text):
    """zone.tab's ISO 6709: +DDMM, +DDDMM, +DDMMSS or +DDDMMSS."""
    sign, figures = text[0], text[1:]
    cut = 2 if len(figures) in (4, 6) else 3
    whole, minutes, seconds = figures[:cut], figures[cut : cut + 2], figures[cut + 2 :] or "0"
    return float(f"{sign}1") * (int(whole) + int(minutes) / 60 + int(seconds) / 3600)


def test_the_place_each_zone_is_named_for_lies_in_it():
    rows = [line.split("\t") for line in ZONE_TAB.splitlines() if not line.startswith("#")]
    assert len(rows) > 400
    wrong = set()
    for _country, place, zone, *_note in rows:
        spot = Spot(*map(degrees, re.findall(r"[+-]\d+", place)))
        found = zone_at(spot)
        if found is None or not are_one(found, zone):
            wrong.add(zone)
    assert wrong == DISPUTED


@pytest.mark.parametrize("spot", [(0, 0), (40, -30), (90, 0), (0, 180), (0, -180), (-0.12, 51.5)])
def test_the_open_sea_has_no_zone_to_propose(spot):
    assert zone_at(Spot(*spot)) is None


def test_links_are_one_and_neighbours_are_two():
    assert are_one("Asia/Calcutta", "Asia/Kolkata")
    assert not are_one("Europe/Paris", "Europe/Berlin")  # summer time in 1976, and in 1980
    assert same_clock("Europe/Paris", "Europe/Berlin", [date(2027, 6, 12), date(2027, 12, 4)])
    assert not same_clock("America/Denver", "America/Phoenix", [date(2027, 6, 12)])
    assert same_clock("America/Denver", "America/Phoenix", [date(2027, 12, 4)])


@pytest.mark.parametrize(
    ("zone", "hours"), [("Europe/London", 0), ("Pacific/Auckland", 12), ("America/New_York", -5)]
)
def test_the_usual_offset_is_without_daylight_saving(zone, hours):
    assert usual_offset(zone, 2027) == timedelta(hours=hours)
