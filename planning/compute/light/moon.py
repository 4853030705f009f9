"""The moon: when it rises and sets, its phase in words, how much of it is lit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from math import atan2, cos, degrees, radians, sin, tan

import ephem

from planning.compute.planned import Event
from planning.compute.values import N_, Spot

from .hours import local, moment, window, zone_info
from .scan import crossings, knots
from .sky import DAY, Sky, ephemeris_day
from .sun import absence

# The moon's upper edge at 34' below level (U.S. Naval Observatory), by its true width and parallax.
MOON_RISE = -34 / 60
PRINCIPAL = (N_("new moon"), N_("first quarter"), N_("full moon"), N_("last quarter"))
BETWEEN = (
    N_("waxing crescent"),
    N_("waxing gibbous"),
    N_("waning gibbous"),
    N_("waning crescent"),
)


@dataclass(frozen=True, slots=True)
class Moon:
    """The moon's face at `at`: lit share 0 to 1, and degrees of phase (0 new, 180 full).

    `phase` is a message id; a day on which a new moon, quarter or full moon falls has its name.
    """

    at: datetime
    phase: str
    illumination: float
    angle: float


def moon_events(
    spot: Spot, zone: str | tzinfo, day: date, evening: bool = False
) -> tuple[Event, ...]:
    """Moonrise and moonset on the local `day` (or its noon to the next), as `sun_events` does.

    About once a month each is missing from a day, with the reason `not_this_day`.
    """
    tz = zone_info(zone)
    return moon_between(spot, tz, *window(tz, day, evening))


def moon_between(spot: Spot, zone: tzinfo, start: float, end: float) -> tuple[Event, ...]:
    """The same over any window of seconds since 1970 UTC."""
    edge = Sky(spot).moon_edge
    points = knots(edge, start, end, step=3600.0)
    passes = crossings(edge, points, MOON_RISE, start, end)
    events = [Event("moonrise" if x.rising else "moonset", local(x.at, zone)) for x in passes]
    inside = [knot for knot in points if start <= knot.at <= end] if start < end else []
    for kind in {"moonrise", "moonset"} - {event.kind for event in events}:
        events.append(Event(kind, None, absence(MOON_RISE, inside)))
    return tuple(events)


def moon(zone: str | tzinfo, at: datetime) -> Moon:
    """The moon at the aware datetime `at`, named after what falls on its date in `zone`."""
    tz = zone_info(zone)
    now = moment(at)
    today = at.astimezone(tz).date()
    named = [word for _, word in _principal(*window(tz, today))]
    angle = phase_angle(now)
    return Moon(
        at=at.astimezone(tz),
        phase=named[0] if named else BETWEEN[int(angle // 90)],
        illumination=illumination(now),
        angle=angle,
    )


def moon_phases(zone: str | tzinfo, first: date, last: date) -> tuple[tuple[str, datetime], ...]:
    """Every new moon, quarter and full moon on the dates `first` to `last`, by name and time."""
    tz = zone_info(zone)
    start, end = window(tz, first)[0], window(tz, last)[1]
    return tuple((word, local(at, tz)) for at, word in _principal(start, end))


def _principal(start: float, end: float) -> Iterator[tuple[float, str]]:
    """Moments in [start, end) at which the phase angle is a whole quarter, in order."""

    def quarters(at: float) -> float:
        return sin(2 * radians(phase_angle(at)))

    for found in crossings(quarters, knots(quarters, start, end, DAY / 2), 0.0, start, end):
        yield found.at, PRINCIPAL[round(phase_angle(found.at) / 90) % 4]


def phase_angle(at: float) -> float:
    """Degrees by which the moon's apparent ecliptic longitude is ahead of the sun's, 0 to 360."""
    return (longitude(ephem.Moon(), at) - longitude(ephem.Sun(), at)) % 360


def longitude(body: ephem.Body, at: float) -> float:
    """Apparent geocentric ecliptic longitude in degrees at `at` seconds since 1970 UTC."""
    body.compute(ephemeris_day(at))
    # Mean obliquity to a second of arc (Meeus, Astronomical Algorithms, 22.2).
    tilt = radians(23.4392911 - 0.0130042 * (at / DAY - 10957.5) / 36525)
    east = sin(body.g_ra) * cos(tilt) + tan(body.g_dec) * sin(tilt)
    return degrees(atan2(east, cos(body.g_ra))) % 360


def illumination(at: float) -> float:
    """The lit share of the moon's face, 0 to 1, at `at` seconds since 1970 UTC.

    From the angle at the moon between sun and earth (Meeus, Astronomical Algorithms, 48.1-3).
    """
    day = ephemeris_day(at)
    body, sun = ephem.Moon(day), ephem.Sun(day)
    apart = ephem.separation((body.g_ra, body.g_dec), (sun.g_ra, sun.g_dec))
    across = sun.earth_distance * sin(apart)
    angle = atan2(across, body.earth_distance - sun.earth_distance * cos(apart))
    return (1 + cos(angle)) / 2
