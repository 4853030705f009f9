"""When to leave home, by two rules; the earlier one counts."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from planning.compute.network.course import Course
from planning.compute.network.draws import minutes
from planning.compute.network.laws import Law, drive_law
from planning.compute.network.values import Leaving
from planning.compute.travel import planned_minutes

SHARE = 0.95


def leave_home(needed: int, map_minutes: int, key: str = "", law: Law | None = None) -> Leaving:
    """For a drive that ends at `needed`: by map minutes and a third, and so that it is on time on
    95 of 100 simulated days."""
    drives = sorted(minutes(f"drive {key}", law or drive_law(map_minutes)))
    drive = drives[ceil(SHARE * len(drives)) - 1]
    rule = needed - planned_minutes(map_minutes)
    simulated = needed - ceil(round(drive, 6))
    return Leaving(min(rule, simulated), rule, simulated)


def leave(course: Course, starts: Mapping[str, int]) -> Leaving | None:
    """None when nobody told where home is, or the day begins there."""
    if not course.chain or course.legs[0] is None:
        return None
    first = course.chain[0]
    return leave_home(starts[first.key], course.legs[0].map_minutes, first.key)
