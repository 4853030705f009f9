"""The engine: where sun and moon stand over a spot, by `ephem` without air and at ground level."""

from __future__ import annotations

from functools import lru_cache
from math import asin, cos, degrees, isfinite, radians, sin
from typing import NamedTuple

import ephem

from planning.compute.values import Spot

from .scan import Crossing, Knot, crossings, knots

# ephem counts days from noon UTC of 31 December 1899; this is midnight UTC of 1 January 1970.
EPOCH = 25567.5
DAY = 86400.0
# The earth's clock was 69.1 to 69.4 s behind even time in 2019 to 2026 (IERS, as in skyfield's
# table). ephem 4.2.1 guesses 74 s for 2026 and 225 s for 2100, which would move the sun.
DELTA_T = 69.2
# Degrees the sky turns in a second of time.
TURN = 360.98564736629 / DAY


class Direction(NamedTuple):
    """Degrees: `altitude` is the true (unrefracted) one of the centre, `azimuth` from north."""

    altitude: float
    azimuth: float


def checked(spot: Spot) -> Spot:
    """Return `spot`, or raise ValueError when it is not on the globe."""
    for name, value, most in (("Latitude", spot.latitude, 90), ("Longitude", spot.longitude, 180)):
        if not isfinite(value) or abs(value) > most:
            raise ValueError(f"{name} {value:g} is not between -{most} and {most} degrees.")
    return spot


def ephemeris_day(at: float) -> float:
    """The date to give ephem for `at` seconds since 1970 UTC, so that its bodies stand right."""
    day = at / DAY + EPOCH
    return day - max(0.0, ephem.delta_t(day) - DELTA_T) / DAY


class Sky:
    """The sky over one spot; every moment is in seconds since 1970 UTC. Not for two threads."""

    def __init__(self, spot: Spot) -> None:
        checked(spot)
        self.observer = ephem.Observer()
        self.observer.lat = radians(spot.latitude)
        self.observer.elevation = 0
        self.observer.pressure = 0
        self._longitude = spot.longitude
        self._sun = ephem.Sun()
        self._moon = ephem.Moon()

    def sun(self, at: float) -> Direction:
        """Where the sun's centre stands, seen from the ground (parallax included)."""
        self._sun_at(at)
        return Direction(degrees(self._sun.alt), degrees(self._sun.az))

    def sun_altitude(self, at: float) -> float:
        """The sun's true altitude in degrees."""
        self._sun_at(at)
        return degrees(self._sun.alt)

    def hour_angle(self, at: float) -> float:
        """The sun's hour angle in degrees, -180 to 180: 0 on the meridian, west positive."""
        self._sun_at(at)
        return half_turn(degrees(self.observer.sidereal_time() - self._sun.g_ra))

    def equation_of_time(self, at: float) -> float:
        """Seconds by which a sundial is ahead of mean solar time."""
        mean = (at % DAY) / DAY * 360 - 180 + self._longitude
        return half_turn(self.hour_angle(at) - mean) * DAY / 360

    def meridian(self, at: float) -> float:
        """Sine of the hour angle: a curve that rises through 0 when the sun crosses south."""
        return sin(radians(self.hour_angle(at)))

    def declination(self, at: float) -> float:
        """The sun's apparent declination in degrees, seen from the earth's centre."""
        self._sun_at(at)
        return degrees(self._sun.g_dec)

    def moon_edge(self, at: float) -> float:
        """True altitude in degrees of the moon's upper edge, seen from the ground."""
        self._set(at)
        self._moon.compute(self.observer)
        return degrees(self._moon.alt + self._moon.radius)

    def _sun_at(self, at: float) -> None:
        self._set(at)
        self._sun.compute(self.observer)

    def _set(self, at: float) -> None:
        """Set the engine's clock back by its error, and turn the earth on by as much."""
        self.observer.date = ephemeris_day(at)
        late = at / DAY + EPOCH - self.observer.date
        self.observer.lon = radians(self._longitude + late * DAY * TURN)


def half_turn(angle: float) -> float:
    """The same angle above -180 and up to 180 degrees."""
    return 180 - (180 - angle) % 360


@lru_cache(maxsize=256)
def sun_knots(spot: Spot, start: float, end: float) -> tuple[Knot, ...]:
    """The sun's altitude over a spot, sampled once for everything that is asked of a day."""
    return knots(Sky(spot).sun_altitude, start, end)


@lru_cache(maxsize=1024)
def sun_crossings(spot: Spot, start: float, end: float, level: float) -> tuple[Crossing, ...]:
    """When the sun passes a true altitude in [start, end), found once for all who ask."""
    return crossings(Sky(spot).sun_altitude, sun_knots(spot, start, end), level, start, end)


def separation(one: Direction, other: Direction) -> float:
    """Degrees of arc between two directions in the sky (haversine formula)."""
    a, b = radians(one.altitude), radians(other.altitude)
    turn = radians(one.azimuth - other.azimuth)
    half = sin((a - b) / 2) ** 2 + cos(a) * cos(b) * sin(turn / 2) ** 2
    return degrees(2 * asin(min(1.0, half**0.5)))
