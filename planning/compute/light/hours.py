"""The local day in absolute time: zones, clock changes, noon."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta, tzinfo
from zoneinfo import ZoneInfo

from planning.compute.values import Spot

from .scan import crossings, knots
from .sky import Sky

# What the engine's long-term clock correction is good for; nobody plans further away.
FIRST_YEAR, LAST_YEAR = 1900, 2199


def zone_info(zone: str | tzinfo) -> tzinfo:
    """Return the zone of an IANA name; ValueError when there is no such zone."""
    if isinstance(zone, tzinfo):
        return zone
    try:
        return ZoneInfo(zone)
    except (KeyError, ValueError, OSError, TypeError):
        raise ValueError(f"There is no time zone {zone!r}; try one like Europe/Madrid.") from None


def window(zone: tzinfo, day: date, evening: bool = False) -> tuple[float, float]:
    """The local day (or from its noon to the next) as seconds since 1970 UTC.

    A day has 23, 24 or 25 hours, and none at all where the calendar skipped it.
    """
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(f"The year {day.year} is not between {FIRST_YEAR} and {LAST_YEAR}.")
    clock = time(12) if evening else time(0)
    # A midnight that the clocks jump over counts as the jump itself (PEP 495, fold 0).
    start, end = (
        datetime.combine(at, clock, tzinfo=zone).timestamp()
        for at in (day, day + timedelta(days=1))
    )
    return start, end


def moment(at: datetime) -> float:
    """Seconds since 1970 UTC of an aware datetime; ValueError for a naive one."""
    if at.utcoffset() is None:
        raise ValueError(f"{at:%Y-%m-%d %H:%M} has no time zone.")
    return at.timestamp()


def local(at: float, zone: tzinfo) -> datetime:
    """The clock time in `zone` of a moment in seconds since 1970 UTC."""
    return datetime.fromtimestamp(at, zone)


def solar_noon(spot: Spot, zone: str | tzinfo, day: date) -> datetime | None:
    """When the sun crosses the meridian on the local `day`; None on a day that was skipped."""
    tz = zone_info(zone)
    start, end = window(tz, day)
    sky = Sky(spot)
    points = knots(sky.meridian, start, end, step=3 * 3600.0)
    passes = [x.at for x in crossings(sky.meridian, points, 0.0, start, end) if x.rising]
    return local(passes[0], tz) if passes else None
