"""Clock times as instants. Dates of change: IANA time zone database."""

from datetime import UTC, date, datetime, time

import pytest

from planning.compute.clock import booked_hours, clock_quirk, instant, moment_time

from .briefs import LONDON, at, make_day, moment

SPRING, AUTUMN = date(2027, 3, 28), date(2027, 10, 31)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.mark.parametrize(
    ("day", "clock", "instant_of_it"),
    [
        (date(2027, 6, 12), "14:30", "2027-06-12 13:30"),
        (date(2027, 1, 9), "14:30", "2027-01-09 14:30"),
        (SPRING, "00:59", "2027-03-28 00:59"),
        (SPRING, "01:30", "2027-03-28 01:30"),  # skipped: it reads 02:30
        (SPRING, "02:30", "2027-03-28 01:30"),
        (AUTUMN, "01:30", "2027-10-31 00:30"),  # twice: the first
        (AUTUMN, "02:30", "2027-10-31 02:30"),
    ],
)
def test_a_clock_time_is_one_instant_also_when_the_clocks_change(day, clock, instant_of_it):
    assert instant(day, at(clock), LONDON) == utc(instant_of_it)


def test_seconds_and_a_stray_fold_do_not_count():
    assert instant(AUTUMN, time(1, 30, 59, 999, fold=1), LONDON) == utc("2027-10-31 00:30")


@pytest.mark.parametrize(
    ("day", "clock", "quirk"),
    [
        (SPRING, "01:30", "skipped"),
        (AUTUMN, "01:30", "twice"),
        (SPRING, "02:00", ""),
        (AUTUMN, "02:00", ""),
        (AUTUMN, "00:59", ""),
        (date(2027, 6, 12), "01:30", ""),
    ],
)
def test_odd_times_are_known_as_odd(day, clock, quirk):
    assert clock_quirk(instant(day, at(clock), LONDON), at(clock), LONDON) == quirk


def test_half_an_hours_change_is_seen_too():
    lord_howe = "Australia/Lord_Howe"  # the clocks go back by 30 minutes
    night = date(2027, 4, 4)
    assert clock_quirk(instant(night, at("01:45"), lord_howe), at("01:45"), lord_howe) == "twice"
    assert clock_quirk(instant(night, at("01:15"), lord_howe), at("01:15"), lord_howe) == ""


@pytest.mark.parametrize(
    ("kind", "clock", "hours", "date_of_it"),
    [
        ("party", "00:30", "", 13),
        ("meal", "00:10", "12:00-03:00", 13),
        ("party", "05:00", "", 12),
        ("ceremony", "04:40", "", 12),
        ("getting_ready", "03:00", "", 12),
        ("other", "04:30", "", 13),
        ("other", "04:30", "04:00-", 12),
    ],
)
def test_small_hours_belong_to_the_evening_before_unless_work_starts_in_them(
    kind, clock, hours, date_of_it
):
    found = moment_time(make_day(hours=hours), moment(kind, clock), "UTC")
    assert (found.day, f"{found:%H:%M}") == (date_of_it, clock)


def test_a_moment_without_a_time_has_no_instant():
    assert moment_time(make_day(), moment("meal"), LONDON) is None


@pytest.mark.parametrize(
    ("hours", "ends"),
    [
        ("10:00-22:30", "2027-06-12 22:30"),
        ("10:00-01:00", "2027-06-13 01:00"),
        ("17:00-06:00", "2027-06-13 06:00"),
        ("-04:00", "2027-06-13 04:00"),
        ("-22:00", "2027-06-12 22:00"),
        ("10:00-10:00", "2027-06-13 10:00"),
    ],
)
def test_booked_hours_may_end_in_the_night_after(hours, ends):
    assert booked_hours(make_day(hours=hours), "UTC")[1] == utc(ends)


def test_no_booked_hours_are_none():
    assert booked_hours(make_day(), LONDON) == (None, None)
    assert booked_hours(make_day(hours="10:00-"), LONDON)[1] is None
