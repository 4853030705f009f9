"""Clock times become instants: small hours, booked hours, and nights on which the clocks change."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from .values import DayBrief, Moment

SMALL_HOURS = time(5)  # a party "at 00:30" belongs to the evening before
MORNING_KINDS = {"getting_ready", "ceremony", "congratulations"}


def instant(day: date, at: time, zone: str) -> datetime:
    """The instant (UTC) of a clock time, in whole minutes.

    A time that the clocks skip counts from before the change (02:30 becomes 03:30, say); one that
    comes twice means the first (PEP 495, fold 0).
    """
    whole = at.replace(second=0, microsecond=0, fold=0)
    return datetime.combine(day, whole, ZoneInfo(zone)).astimezone(UTC)


def moment_time(day: DayBrief, moment: Moment, zone: str) -> datetime | None:
    """The instant (UTC) of a moment of that day, or of the small hours of the night after it."""
    if moment.at is None:
        return None
    early = moment.kind in MORNING_KINDS or (day.starts and day.starts <= moment.at)
    late = moment.at < SMALL_HOURS and not early
    return instant(day.date + timedelta(days=late), moment.at, zone)


def booked_hours(day: DayBrief, zone: str) -> tuple[datetime | None, datetime | None]:
    """The instants (UTC) the booked hours start and end; they may end in the night after."""
    starts = instant(day.date, day.starts, zone) if day.starts else None
    if day.ends is None:
        return starts, None
    overnight = day.ends <= day.starts if day.starts else day.ends < SMALL_HOURS
    return starts, instant(day.date + timedelta(days=overnight), day.ends, zone)


def later(at: datetime, minutes: float) -> datetime:
    """By the minutes that pass, whatever the clocks do; earlier where they are negative."""
    return datetime.fromtimestamp(at.timestamp() + 60 * minutes, at.tzinfo)


def clock_quirk(at: datetime, wall: time, zone: str) -> str:
    """What is odd about a clock time on a night of change: "skipped", "twice" or nothing."""
    local = at.astimezone(ZoneInfo(zone))
    if (local.hour, local.minute) != (wall.hour, wall.minute):
        return "skipped"
    return "twice" if local.utcoffset() != local.replace(fold=1).utcoffset() else ""


def to_minute(at: datetime) -> datetime:
    """The nearest whole minute, as almanacs print it, but never one of another day."""
    nearest = datetime.fromtimestamp((at.timestamp() + 30) // 60 * 60, at.tzinfo)
    return nearest if nearest.date() == at.date() else at.replace(second=0, microsecond=0)


def in_figures(at: datetime) -> str:
    """The clock time of a moment, to the nearest minute: 14:05."""
    return f"{to_minute(at):%H:%M}"
