"""Drives between places: what the map says, and what we plan for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from .values import Leg


def planned_minutes(map_minutes: int) -> int:
    """Map minutes and a third more, rounded up; never less than the map says.

    A third on top is a buffer index of 0.33 in traffic engineers' words. A published example (US
    FHWA, "Travel Time Reliability", as a regional council restates it) uses 0.40: 20 minutes
    become 28, where we plan 27. The choice of a third: common practice, no source.
    """
    return -(-4 * map_minutes // 3)


def find_leg(legs: Iterable[Leg], origin: str | None, destination: str | None) -> Leg | None:
    """The drive between two places; the way back serves where the way there is not known."""
    known = {(leg.origin, leg.destination): leg for leg in legs}
    there, back = known.get((origin, destination)), known.get((destination, origin))
    return there or (back and replace(back, origin=origin, destination=destination))
