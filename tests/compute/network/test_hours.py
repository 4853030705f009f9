"""Nights when the clocks change, by the rules of the time zone database."""

from datetime import date
from zoneinfo import ZoneInfo

import pytest

from planning.compute.network.hours import Hours
from tests.compute.network.days import SUMMER, at

BACK = Hours(date(2026, 10, 24), ZoneInfo("Europe/Madrid"))  # 25 October, 03:00 becomes 02:00
FORWARD = Hours(date(2026, 3, 28), ZoneInfo("Europe/Madrid"))  # 29 March, 02:00 becomes 03:00


@pytest.mark.parametrize("clock", ["00:00", "14:00", "23:59", "24:00", "26:30", "47:59"])
def test_without_a_change_minutes_are_those_of_the_clock(clock):
    assert SUMMER.minute(at(clock)) == at(clock)
    assert SUMMER.shown(at(clock)) == clock


def test_an_hour_comes_twice_in_october():
    assert BACK.minute(at("28:00")) - BACK.minute(at("25:00")) == 4 * 60
    assert [BACK.shown(at("25:30") + 60 * i) for i in range(4)] == [
        "25:30",
        "26:30",
        "26:30",
        "27:30",
    ]
    assert BACK.quirk(at("26:30")) == "twice"
    assert BACK.at(at("26:30")).isoformat() == "2026-10-25T02:30:00+02:00"


def test_an_hour_is_missing_in_march():
    assert FORWARD.minute(at("28:00")) - FORWARD.minute(at("25:00")) == 2 * 60
    assert FORWARD.quirk(at("26:30")) == "skipped"
    assert FORWARD.shown(FORWARD.minute(at("26:30"))) == "27:30"
    assert not FORWARD.quirk(at("27:30"))


def test_the_wedding_may_be_on_the_day_of_the_change_itself():
    day = Hours(date(2026, 10, 25), ZoneInfo("Europe/Madrid"))
    assert day.minute(at("14:00")) == 15 * 60
    assert day.shown(15 * 60) == "14:00"


def test_a_zone_may_change_by_half_an_hour():
    day = Hours(date(2026, 4, 4), ZoneInfo("Australia/Lord_Howe"))
    assert day.minute(at("27:00")) == at("27:30")


def test_times_are_rounded_before_they_are_divided():
    assert SUMMER.shown(899.6) == "15:00"
    assert SUMMER.shown(at("23:59") + 0.7) == "24:00"


def test_the_evening_before_is_told_by_its_own_clock():
    assert SUMMER.shown(-90) == "22:30"
    assert SUMMER.at(-90).date() == date(2026, 6, 19)
