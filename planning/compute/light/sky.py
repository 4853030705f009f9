"""The engine: where sun and moon stand over a spot, by `ephem` without air and at ground level."""

from __future__ import annotations

from math import asin, cos, degrees, isfinite, radians, sin, tau
from typing import NamedTuple

import ephem

from planning.compute.values import Spot

# ephem counts days from noon UTC of 31 December 1899; this is midnight UTC of 1 January 1970.
EPOCH = 25567.5
DAY = 86400.0


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


class Sky:
    """The sky over one spot; every moment is in seconds since 1970 UTC. Not for two threads."""

    def __init__(self, spot: Spot) -> None:
        checked(spot)
        self.observer = ephem.Observer()
        self.observer.lat = radians(spot.latitude)
        self.observer.lon = radians(spot.longitude)
        self.observer.elevation = 0
        self.observer.pressure = 0
        self._sun = ephem.Sun()

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
        turn = (self.observer.sidereal_time() - self._sun.ra) / tau
        return ((turn + 0.5) % 1.0 - 0.5) * 360

    def meridian(self, at: float) -> float:
        """Sine of the hour angle: a curve that rises through 0 when the sun crosses south."""
        return sin(radians(self.hour_angle(at)))

    def declination(self, at: float) -> float:
        """The sun's apparent declination in degrees."""
        self._sun_at(at)
        return degrees(self._sun.dec)

    def _sun_at(self, at: float) -> None:
        self.observer.date = at / DAY + EPOCH
        self._sun.compute(self.observer)


def separation(one: Direction, other: Direction) -> float:
    """Degrees of arc between two directions in the sky (haversine formula)."""
    a, b = radians(one.altitude), radians(other.altitude)
    turn = radians(one.azimuth - other.azimuth)
    half = sin((a - b) / 2) ** 2 + cos(a) * cos(b) * sin(turn / 2) ** 2
    return degrees(2 * asin(min(1.0, half**0.5)))
