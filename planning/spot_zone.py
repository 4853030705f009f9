"""The time zone that a map of zones shows at a spot. It proposes; the photographer decides."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from tzfpy import get_tz

from .compute.values import Spot
from .forms import ZONES

KNOWN = frozenset(ZONES)
FROM, TO = 1970, 2037


def zone_at(spot: Spot) -> str | None:
    """The IANA zone of the land there; None on the open sea, which has only nautical ones."""
    zone = get_tz(spot.longitude, spot.latitude)  # longitude first
    return zone if zone in KNOWN and not zone.startswith("Etc/") else None


@lru_cache(maxsize=256)
def are_one(zone: str, other: str) -> bool:
    """Whether two names mean the same clocks, as Asia/Calcutta and Asia/Kolkata do."""
    months = (date(year, month, 1) for year in range(FROM, TO) for month in range(1, 13))
    return zone == other or same_clock(zone, other, months)


def same_clock(zone: str, other: str, days: Iterable[date]) -> bool:
    """Whether two zones tell the same time at noon UTC of each of `days`."""
    one, two = ZoneInfo(zone), ZoneInfo(other)
    noons = (datetime(day.year, day.month, day.day, 12, tzinfo=UTC) for day in days)
    return all(at.astimezone(one).utcoffset() == at.astimezone(two).utcoffset() for at in noons)


def usual_offset(zone: str, year: int) -> timedelta:
    """The smaller offset of the year: without daylight saving."""
    both = (datetime(year, month, 1, tzinfo=UTC).astimezone(ZoneInfo(zone)) for month in (1, 7))
    return min(at.utcoffset() or timedelta() for at in both)
