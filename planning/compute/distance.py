"""How far two spots are from each other, as the crow flies."""

from __future__ import annotations

from math import radians

import ephem

from .values import Spot

# The mean radius of the earth after the International Union of Geodesy and Geophysics. The real
# earth is flattened: a distance may be wrong by half a per cent.
EARTH_KM = 6371.0088


def distance_km(one: Spot, other: Spot) -> float:
    """The great circle between two spots in kilometres."""
    ends = ((radians(spot.longitude), radians(spot.latitude)) for spot in (one, other))
    return float(ephem.separation(*ends)) * EARTH_KM
