"""Drives between places: what the map says, and what we plan for it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .values import Leg


def planned_minutes(map_minutes: int) -> int:
    """Map minutes and a third more, rounded up; never less than the map says.

    A third on top is a buffer index of 0.33 in traffic engineers' words (FHWA, "Travel Time
    Reliability"; its own example uses 0.40). The choice of a third: common practice, no source.
    """
    return math.ceil(map_minutes * 4 / 3)


def find_leg(legs: Iterable[Leg], origin: str | None, destination: str | None) -> Leg | None:
    """The drive between two places; the way back serves where the way there is not known."""
    known = {(leg.origin, leg.destination): leg for leg in legs}
    return known.get((origin, destination)) or known.get((destination, origin))
