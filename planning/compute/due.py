"""When something is due: days before a wedding become instants, in the wedding's own zone.

Whole days are counted on the calendar, never in hours, so that six in the evening stays six in the
evening on both sides of a clock change; hours after a day are hours that pass.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from .clock import booked_hours, instant, later
from .ready_values import Due
from .values import DayBrief

# Ours: time to eat, look at the road and load before a day, and to copy the cards after it.
MORNING, BEFORE_HOURS, AFTER_HOURS = time(8), 120, 180
QUARTER = 15 * 60
NEXT = timedelta(days=1)


def day_starts(day: DayBrief, zone: str) -> datetime:
    """The instant (UTC) the booked hours start, or else the date does."""
    return booked_hours(day, zone)[0] or instant(day.date, time(), zone)


def day_ends(day: DayBrief, zone: str) -> datetime:
    """The instant (UTC) the booked hours end, or else the date does."""
    return booked_hours(day, zone)[1] or instant(day.date + NEXT, time(), zone)


def due_at(due: Due, days: Sequence[DayBrief], index: int, zone: str) -> datetime:
    """The instant, in the zone: `index` is the day of the wedding that it belongs to."""
    day = days[index]
    if due.when == "before":
        at = instant(day.date - timedelta(days=due.days), due.at, zone)
    elif due.when == "evening":
        at = _evening(due, days, index, zone)
    elif due.when == "morning":
        at = morning(day, zone)
    elif due.when == "night":
        at = night(day, zone)
    else:
        at = _after(due, days, index, zone)
    return at.astimezone(ZoneInfo(zone))


def morning(day: DayBrief, zone: str) -> datetime:
    """Eight o'clock, or two hours before the booked ones where they begin early (UTC)."""
    starts = booked_hours(day, zone)[0]
    usual = instant(day.date, MORNING, zone)
    return min(usual, later(starts, -BEFORE_HOURS)) if starts else usual


def night(day: DayBrief, zone: str) -> datetime:
    """Three hours after the booked ones end, to the next quarter; two at night else (UTC)."""
    ends = booked_hours(day, zone)[1]
    if ends is None:
        return instant(day.date + NEXT, time(2), zone)
    at = later(ends, AFTER_HOURS).timestamp()
    return datetime.fromtimestamp(-(-at // QUARTER) * QUARTER, UTC)


def _evening(due: Due, days: Sequence[DayBrief], index: int, zone: str) -> datetime:
    """Between two days in a row the evening is what is left of the night between them."""
    day = days[index]
    at = instant(day.date - NEXT, due.at, zone)
    if index and days[index - 1].date >= day.date - NEXT:
        at = max(at, night(days[index - 1], zone))
    return min(at, morning(day, zone))


def _after(due: Due, days: Sequence[DayBrief], index: int, zone: str) -> datetime:
    """The day after, but before one leaves for the next day of the wedding."""
    at = instant(days[index].date + NEXT, due.at, zone)
    return min(at, morning(days[index + 1], zone)) if index + 1 < len(days) else at
