"""Judged by dateutil's own reader of VTIMEZONE (`tzical`), which sees nothing but the rule."""

import io
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.tz import tzical

from planning.zones import build_vtimezone, find_onsets

ZONES = [
    "Europe/London",
    "Europe/Berlin",
    "Europe/Dublin",
    "America/New_York",
    "America/Santiago",
    "America/Nuuk",
    "Asia/Jerusalem",
    "Asia/Kathmandu",
    "Australia/Sydney",
    "Australia/Lord_Howe",
    "Pacific/Auckland",
    "Pacific/Chatham",
    "Pacific/Honolulu",
    "Antarctica/Troll",
]


def read_zone(component):
    text = component.to_ical().decode()
    return tzical(io.StringIO(f"BEGIN:VCALENDAR\r\n{text}END:VCALENDAR\r\n")).get()


def lines_of(component):
    return component.to_ical().decode().split("\r\n")


@pytest.mark.parametrize("zone", ZONES)
def test_the_rule_says_what_zoneinfo_says_all_through_seven_years(zone):
    read, there = read_zone(build_vtimezone(zone, 2024, 2030)), ZoneInfo(zone)
    onsets = [onset.wall for onset in find_onsets(zone, 2024, 2030)]
    for hours in range(0, 24 * 365 * 7, 31):
        wall = datetime(2024, 1, 1) + timedelta(hours=hours)
        # An hour that does not exist or exists twice has no one answer.
        if all(abs(wall - onset) > timedelta(hours=3) for onset in onsets):
            assert wall.replace(tzinfo=read).utcoffset() == wall.replace(tzinfo=there).utcoffset()


@pytest.mark.parametrize("zone", ZONES)
def test_the_offset_changes_at_the_minute_it_changes_in_zoneinfo(zone):
    read, there = read_zone(build_vtimezone(zone, 2024, 2030)), ZoneInfo(zone)
    for onset in find_onsets(zone, 2024, 2030):
        at = (onset.wall - onset.before).replace(tzinfo=UTC)
        last = (at - timedelta(minutes=1)).astimezone(there)
        assert last.replace(tzinfo=None) == onset.wall - timedelta(minutes=1)
        assert at.astimezone(there).utcoffset() == onset.after
        # By the old clock: one minute before it still holds, on the minute it does not.
        assert (onset.wall - timedelta(minutes=1)).replace(tzinfo=read).utcoffset() == onset.before
        assert onset.wall.replace(tzinfo=read).utcoffset() == onset.after


# The worked example of RFC 5545, 3.6.5 (New York as it is since 2007): second Sunday of March at
# 02:00 by the winter clock, first Sunday of November at 02:00 by the summer clock.
def test_new_york_is_written_as_the_standards_own_example_has_it():
    lines = lines_of(build_vtimezone("America/New_York", 2007, 2013))
    summer = lines[lines.index("BEGIN:DAYLIGHT") : lines.index("END:DAYLIGHT")]
    winter = lines[lines.index("BEGIN:STANDARD") : lines.index("END:STANDARD")]
    assert {"DTSTART:19700308T020000", "TZOFFSETFROM:-0500", "TZOFFSETTO:-0400"} <= set(summer)
    assert {"DTSTART:19701101T020000", "TZOFFSETFROM:-0400", "TZOFFSETTO:-0500"} <= set(winter)
    assert "RRULE:FREQ=YEARLY;BYDAY=2SU;BYMONTH=3" in summer
    assert "RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=11" in winter
    assert "TZNAME:EDT" in summer
    assert "TZNAME:EST" in winter


# Directive 2000/84/EC: last Sundays of March and October, at 01:00 UTC.
def test_berlin_changes_at_two_in_march_and_at_three_in_october_by_the_old_clock():
    lines = lines_of(build_vtimezone("Europe/Berlin", 2024, 2030))
    assert "DTSTART:19700329T020000" in lines
    assert "DTSTART:19701025T030000" in lines
    assert "RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10" in lines


def test_lord_howe_moves_by_half_an_hour():
    lines = lines_of(build_vtimezone("Australia/Lord_Howe", 2024, 2030))
    assert {"TZOFFSETFROM:+1030", "TZOFFSETTO:+1100"} <= set(lines)


@pytest.mark.parametrize(
    ("zone", "offset"), [("Asia/Kathmandu", "+0545"), ("Pacific/Honolulu", "-1000")]
)
def test_a_zone_whose_clocks_stand_still_has_one_part_and_no_rule(zone, offset):
    lines = lines_of(build_vtimezone(zone, 2024, 2030))
    assert [line for line in lines if line.startswith("BEGIN:")] == [
        "BEGIN:VTIMEZONE",
        "BEGIN:STANDARD",
    ]
    assert {f"TZOFFSETFROM:{offset}", f"TZOFFSETTO:{offset}"} <= set(lines)
    assert not any(line.startswith("RRULE") for line in lines)


@pytest.mark.parametrize(
    ("zone", "years"),
    [
        ("Africa/Casablanca", (2024, 2030)),  # Ramadan follows the moon
        ("Africa/Cairo", (2024, 2030)),  # midnight after a last Thursday: at times next month
        ("Asia/Almaty", (2021, 2027)),  # another offset from 2024 on
        ("Europe/Berlin", (1978, 1984)),  # summer time begins in 1980
        ("America/New_York", (2004, 2010)),  # other Sundays from 2007 on
    ],
)
def test_a_zone_without_one_rule_for_all_those_years_has_none(zone, years):
    assert build_vtimezone(zone, *years) is None


@pytest.mark.parametrize("zone", ["UTC", "Etc/UTC", "Atlantic/Reykjavik"])
def test_a_zone_that_keeps_utc_needs_none(zone):
    assert build_vtimezone(zone, 2024, 2030) is None
