"""By when things are due, against reckonings that are not ours: day numbers, the law of summer
time, and published facts of the calendar."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo, available_timezones

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.compute.due import day_ends, due_at, morning, night
from planning.compute.ready_items import ITEMS
from planning.compute.ready_values import Due

from .briefs import make_day
from .readies import LONDON, julian_day_number, london_offset, summer_time

ZONES = sorted(zone for zone in available_timezones() if "/" in zone and "Etc" not in zone)
DATES = st.dates(date(1975, 1, 1), date(2199, 12, 31))
SIX = time(18)


def number(day):
    return julian_day_number(day.year, day.month, day.day)


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (date(2000, 1, 1), 2451545),  # the epoch J2000.0 (IAU), noon of this day
        (date(1858, 11, 17), 2400001),  # modified Julian date 0, midnight of this day
        (date(1968, 5, 24), 2440001),  # truncated Julian day 0 (NASA, 1979) at its midnight
    ],
)
def test_the_judge_agrees_with_published_day_numbers(day, expected):
    assert number(day) == expected


@given(DATES, st.integers(0, 1000))
def test_days_before_a_wedding_are_calendar_days(day, days):
    due = due_at(Due("before", days), [make_day(on=day)], 0, LONDON)
    assert number(day) - number(due.date()) == days
    assert due.time() == SIX


@given(DATES, st.integers(0, 120), st.sampled_from(ZONES))
def test_the_clock_time_is_the_same_in_every_zone_and_season(day, days, zone):
    due = due_at(Due("before", days), [make_day(on=day)], 0, zone)
    assert str(due.tzinfo) == zone
    gone = datetime.combine(due.date(), due.time(), ZoneInfo(zone)).astimezone(UTC)
    assert gone == due.astimezone(UTC)
    assert (due.hour, due.minute) == (18, 0) or is_skipped(day - timedelta(days=days), zone)


def is_skipped(day, zone):
    """Whether six in the evening does not exist there that day."""
    there = datetime.combine(day, SIX, ZoneInfo(zone)).astimezone(UTC).astimezone(ZoneInfo(zone))
    return there.replace(tzinfo=None) != datetime.combine(day, SIX)


@pytest.mark.parametrize("year", [2026, 2027, 2028, 2031, 2044])
@pytest.mark.parametrize("days", [0, 1, 2, 7, 28, 84])
def test_six_in_london_is_six_on_both_sides_of_summer_time(year, days):
    for change in summer_time(year):
        for shift in (-1, 0, 1, 5, 84):
            wedding = (change + timedelta(days=shift)).date()
            due = due_at(Due("before", days), [make_day(on=wedding)], 0, LONDON).astimezone(UTC)
            assert due + london_offset(due) == datetime.combine(
                date.fromordinal(due.date().toordinal()), SIX, UTC
            )


def test_the_evening_before_the_clocks_change_is_25_hours_before_the_next():
    """Two evenings around the last Sunday of October 2027, the 31st."""
    days = [make_day(on=date(2027, 11, 1), hours="10:00-22:00")]
    evening = due_at(Due("evening"), days, 0, LONDON).timestamp()
    two_before = due_at(Due("before", 2), days, 0, LONDON).timestamp()
    assert evening - two_before == 25 * 3600


@pytest.mark.parametrize(
    ("wedding", "days", "expected"),
    [
        (date(2028, 3, 1), 1, date(2028, 2, 29)),  # 2028 is a leap year
        (date(2027, 3, 1), 1, date(2027, 2, 28)),
        (date(2100, 3, 1), 1, date(2100, 2, 28)),  # 2100 is none: the Gregorian rule of centuries
        (date(2000, 3, 1), 1, date(2000, 2, 29)),  # 2000 was one: the rule of four centuries
        (date(2028, 2, 29), 28, date(2028, 2, 1)),
        (date(2028, 2, 29), 365, date(2027, 3, 1)),
        (date(2028, 1, 1), 1, date(2027, 12, 31)),
    ],
)
def test_leap_days_count(wedding, days, expected):
    assert due_at(Due("before", days), [make_day(on=wedding)], 0, LONDON).date() == expected


def test_after_a_date_that_never_was_the_evening_is_over_by_the_morning():
    """Samoa went from 29 to 31 December 2011 (IANA time zone database, file australasia)."""
    days = [make_day(on=date(2011, 12, 31), hours="10:00-22:00")]
    due = due_at(Due("evening"), days, 0, "Pacific/Apia")
    assert due == morning(days[0], "Pacific/Apia")  # at the latest


def test_the_evening_before_is_on_the_clock_of_the_wedding():
    days = [make_day(on=date(2027, 6, 12))]
    auckland = due_at(Due("evening"), days, 0, "Pacific/Auckland")
    # New Zealand standard time, 12 hours ahead of UTC from April to September (NZ Time Act 1974).
    assert auckland.astimezone(UTC) == datetime(2027, 6, 11, 6, tzinfo=UTC)


def test_the_morning_is_eight_or_two_hours_before_an_early_beginning():
    june = date(2027, 6, 12)
    assert morning(make_day(on=june), LONDON) == datetime(2027, 6, 12, 7, tzinfo=UTC)
    early = make_day(on=june, hours="07:30-22:00")
    assert morning(early, LONDON) == datetime(2027, 6, 12, 4, 30, tzinfo=UTC)


def test_the_night_is_three_hours_that_pass_after_the_end_to_the_next_quarter():
    """2:00 comes twice in Berlin on 31 October 2027 (Directive 2000/84/EC): an hour more."""
    days = [make_day(on=date(2027, 10, 30), hours="12:00-23:50")]
    assert night(days[0], "Europe/Berlin") == datetime(2027, 10, 31, 1, 0, tzinfo=UTC)
    assert due_at(Due("night"), days, 0, "Europe/Berlin").time() == time(2)
    assert due_at(Due("night"), days, 0, "Europe/Berlin").fold == 1


def test_without_hours_the_night_is_two_oclock():
    assert night(make_day(on=date(2027, 6, 12)), LONDON) == datetime(2027, 6, 13, 1, tzinfo=UTC)


def test_a_day_ends_with_its_hours_or_with_its_date():
    june = date(2027, 6, 12)
    assert day_ends(make_day(on=june), LONDON) == datetime(2027, 6, 12, 23, tzinfo=UTC)
    late = make_day(on=june, hours="12:00-01:30")
    assert day_ends(late, LONDON) == datetime(2027, 6, 13, 0, 30, tzinfo=UTC)


def test_between_two_days_in_a_row_the_evening_is_after_the_first_nights_copies():
    days = [
        make_day(on=date(2027, 6, 12), hours="10:00-22:00", key="d1"),
        make_day(on=date(2027, 6, 13), hours="09:00-20:00", key="d2"),
    ]
    evening, copied = (
        due_at(Due(when), days, i, LONDON) for when, i in (("evening", 1), ("night", 0))
    )
    assert evening == copied
    assert evening.time() == time(1)
    assert due_at(Due("after"), days, 0, LONDON) == morning(days[1], LONDON)
    apart = [days[0], make_day(on=date(2027, 6, 19), key="d2")]
    assert due_at(Due("evening"), apart, 1, LONDON).date() == date(2027, 6, 18)


def test_a_night_too_short_for_anything_still_ends_in_the_morning():
    days = [
        make_day(on=date(2027, 6, 12), hours="18:00-04:30", key="d1"),
        make_day(on=date(2027, 6, 13), hours="06:00-20:00", key="d2"),
    ]
    assert due_at(Due("evening"), days, 1, LONDON) == morning(days[1], LONDON)


@given(
    DATES,
    st.sampled_from(ZONES),
    st.integers(1, 4),
    st.sampled_from(["", "10:00-22:30", "06:00-03:00"]),
)
def test_a_day_runs_in_its_order_in_every_zone(first, zone, count, hours):
    """Evening, morning, night, the day after: never the other way round."""
    days = [make_day(on=first + timedelta(days=i), hours=hours, key=f"d{i}") for i in range(count)]
    for i in range(count):
        evening, dawn, after = (
            due_at(Due(w), days, i, zone) for w in ("evening", "morning", "after")
        )
        assert evening.timestamp() <= dawn.timestamp() <= day_ends(days[i], zone).timestamp()
        assert dawn.timestamp() < after.timestamp()


def test_the_table_has_one_item_of_each_key_and_sensible_clock_times():
    keys = [item.key for item in ITEMS]
    assert len(keys) == len(set(keys))
    for item in ITEMS:
        assert time(8) <= item.due.at <= time(22)
        assert item.why.endswith((".", "?"))
        assert item.source
