"""When the invented weddings are: pure functions of today, so that the season always lies ahead."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY = range(7)
WEEKS_AHEAD = 12  # room for the answers, the planning meeting and the venue visit
WINTER_WEEKS_AHEAD = 3


def nearest(day: date, weekday: int) -> date:
    """The day of that weekday (Monday 0) nearest to a date: at most three days away."""
    return day + timedelta(days=(weekday - day.weekday() + 3) % 7 - 3)


def next_near(today: date, month: int, day: int, weekday: int) -> date:
    """The next such weekday near that day of the year, at least twelve weeks ahead."""
    return _first(today, WEEKS_AHEAD, lambda year: nearest(date(year, month, day), weekday))


def _first(today: date, weeks: int, in_year: Callable[[int], date]) -> date:
    earliest = today + timedelta(weeks=weeks)
    return next(d for d in map(in_year, range(today.year, today.year + 3)) if d >= earliest)


def next_dark_saturday(today: date) -> date:
    """The next Saturday of December or January at least three weeks ahead; never at Christmas."""
    earliest = today + timedelta(weeks=WINTER_WEEKS_AHEAD)
    saturday = earliest + timedelta(days=(SATURDAY - earliest.weekday()) % 7)
    while saturday.month not in {12, 1} or _holiday(saturday):
        saturday += timedelta(weeks=1)
    return saturday


def _holiday(day: date) -> bool:
    return (day.month, day.day) in {(12, 24), (12, 25), (12, 26), (1, 1)}


def before(wedding: date, weeks: int, weekday: int) -> date:
    """A weekday in the week that lies so many weeks before the wedding's week."""
    monday = wedding - timedelta(days=wedding.weekday(), weeks=weeks)
    return monday + timedelta(days=weekday)


def at(day: date, clock: str, zone: str = "Europe/London") -> datetime:
    return datetime.combine(day, time.fromisoformat(clock), ZoneInfo(zone))


def lately(today: date, days: int, clock: str, no_later_than: date | None = None) -> datetime:
    """An evening some days ago, or on an earlier day by which it had to be done."""
    day = today - timedelta(days=days)
    return at(min(day, no_later_than or day), clock)
