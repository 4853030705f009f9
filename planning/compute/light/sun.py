"""Sunrise, sunset, the twilights, golden and blue light; and where the sun stands at a moment."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from math import radians, tan
from typing import NamedTuple

from planning.compute.planned import Event
from planning.compute.values import Spot

from .hours import local, moment, window, zone_info
from .scan import Crossing, Knot
from .sky import Sky, sun_crossings, sun_knots

# 34' of refraction and 16' of half the sun's width: the almanacs' standard.
RISE = -50 / 60
CIVIL, NAUTICAL, ASTRONOMICAL = -6.0, -12.0, -18.0
# Golden -4 to +6 and blue -6 to -4 are a convention (as in astral), no standard.
GOLDEN_TOP, GOLDEN_FOOT, BLUE_FOOT = 6.0, -4.0, -6.0


class Height(NamedTuple):
    """An event of the sun: it passes `altitude` (true degrees of its centre), up or down."""

    kind: str
    altitude: float
    rising: bool


SUN_EVENTS = (
    Height("astronomical_dawn", ASTRONOMICAL, True),
    Height("nautical_dawn", NAUTICAL, True),
    Height("civil_dawn", CIVIL, True),
    Height("blue_morning_start", BLUE_FOOT, True),
    Height("blue_morning_end", GOLDEN_FOOT, True),
    Height("golden_morning_start", GOLDEN_FOOT, True),
    Height("sunrise", RISE, True),
    Height("golden_morning_end", GOLDEN_TOP, True),
    Height("golden_evening_start", GOLDEN_TOP, False),
    Height("sunset", RISE, False),
    Height("golden_evening_end", GOLDEN_FOOT, False),
    Height("blue_evening_start", GOLDEN_FOOT, False),
    Height("blue_evening_end", BLUE_FOOT, False),
    Height("civil_dusk", CIVIL, False),
    Height("nautical_dusk", NAUTICAL, False),
    Height("astronomical_dusk", ASTRONOMICAL, False),
)


@dataclass(frozen=True, slots=True)
class SunPosition:
    """Where the sun stands, in degrees, and the shadow it throws on level ground.

    `altitude` is true (as in almanacs), `apparent_altitude` lifted by the air (as one sees it).
    `shadow_ratio` is the shadow's length per height, 1 / tan(altitude); it and the bearing the
    shadow points to are None when the sun is not above the horizon.
    """

    altitude: float
    apparent_altitude: float
    azimuth: float
    shadow_ratio: float | None
    shadow_bearing: float | None


def sun_events(
    spot: Spot, zone: str | tzinfo, day: date, evening: bool = False
) -> tuple[Event, ...]:
    """Every event of SUN_EVENTS on the local `day`, in order of time, absent ones last.

    With `evening` the day runs from its noon to the next, so that a sunset after midnight still
    belongs to the evening of the wedding. An absent event has no `at` and says why: the sun is
    `always_up` or `always_down`, or passes that height on another day (`not_this_day`). Two of
    a kind in one day are both listed. Raises ValueError for a spot off the globe, an unknown
    zone or a year beyond 1900 to 2199. A day on which the sun only grazes a height (within a
    few thousandths of a degree) is uncertain by minutes.
    """
    tz = zone_info(zone)
    return events_between(spot, tz, *window(tz, day, evening))


def events_between(spot: Spot, zone: tzinfo, start: float, end: float) -> tuple[Event, ...]:
    """The same over any window of seconds since 1970 UTC."""
    points = sun_knots(spot, start, end)
    levels = {height.altitude for height in SUN_EVENTS}
    passes = {level: sun_crossings(spot, start, end, level) for level in levels}
    inside = [knot for knot in points if start <= knot.at <= end] if start < end else []
    events = [
        event
        for height in SUN_EVENTS
        for event in _events(height, passes[height.altitude], inside, zone)
    ]
    return in_order(events)


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """Sort by absolute time, absent events last."""
    return tuple(sorted(events, key=lambda e: (e.at is None, e.at.timestamp() if e.at else 0)))


def _events(
    height: Height, passes: Sequence[Crossing], inside: Sequence[Knot], zone: tzinfo
) -> list[Event]:
    hits = [x for x in passes if x.rising == height.rising]
    if hits:
        return [Event(height.kind, local(x.at, zone)) for x in hits]
    return [Event(height.kind, None, absence(height.altitude, inside))]


def absence(level: float, inside: Sequence[Knot]) -> str:
    """Why a body never passes `level`: `always_up`, `always_down` or `not_this_day`."""
    sides = {knot.value >= level for knot in inside}
    if sides == {True}:
        return "always_up"
    return "always_down" if sides == {False} else "not_this_day"


def position(spot: Spot, at: datetime) -> SunPosition:
    """Where the sun stands over `spot` at the aware datetime `at` (ValueError for a naive one)."""
    altitude, azimuth = Sky(spot).sun(moment(at))
    up = altitude > 0
    return SunPosition(
        altitude=altitude,
        apparent_altitude=altitude + refraction(altitude),
        azimuth=azimuth,
        shadow_ratio=1 / tan(radians(altitude)) if up else None,
        shadow_bearing=(azimuth + 180) % 360 if up else None,
    )


def refraction(altitude: float, pressure: float = 1010.0, celsius: float = 10.0) -> float:
    """How far the air lifts a body of this true `altitude`, in degrees; pressure in hPa.

    Sæmundsson's formula (Meeus, Astronomical Algorithms, 16.4), as the SPA report uses it:
    nothing once the whole sun is below the horizon.
    """
    if altitude < RISE:
        return 0.0
    minutes = 1.02 / tan(radians(altitude + 10.3 / (altitude + 5.11)))
    return max(0.0, minutes / 60 * pressure / 1010 * 283 / (273 + celsius))
