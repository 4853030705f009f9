"""How much longer everything may take before the day no longer holds."""

from __future__ import annotations

from planning.compute.network.course import Course
from planning.compute.network.laws import Law, drive_law
from planning.compute.network.values import Block
from planning.compute.values import Leg

FINE = 1024  # parts of a minute: sums of such are exact on every machine


def holds(course: Course) -> float | None:
    """The greatest share q (0 to 0.99, in hundredths) such that the day still holds when each
    block of the photographer's and each drive takes as long as on all but 1 - q of the days.

    None where her blocks would then take less in all than their likely minutes. For a day that
    holds with these; what begins late by itself is left out. Times are chosen before the day, and
    end times have no least: so it also holds however much less things take (strong
    controllability, see control.py).
    """
    low, high = 0, 100
    while high - low > 1:
        middle = (low + high) // 2
        if holds_at(course, middle / 100):
            low = middle
        else:
            high = middle
    share = low / 100
    likely = sum(block.law.likely for block in course.chain)
    return share if sum(lasts(block, share) for block in course.chain) >= likely else None


def holds_at(course: Course, share: float) -> bool:
    """Everything as early as it can be: nothing but fixed times and windows sets an end to that,
    so one walk through the day decides like the whole network."""
    ends: dict[str, float] = {}
    for block in course.blocks:
        at: float = max(0, block.fixed or 0, block.window[0] if block.window else 0)
        for key, leg in course.waits[block.key]:
            if key is not None:
                at = max(at, ends[key] + drive(leg, share))
        ends[block.key] = at + lasts(block, share)
        if block.fixed is not None and at > block.fixed:
            return False
        if block.window is not None and ends[block.key] > block.window[1]:
            return False
    return True


def lasts(block: Block, share: float) -> float:
    return quantile(block.law, share) if block.photographer else round(block.law.likely)


def drive(leg: Leg | None, share: float) -> float:
    return quantile(drive_law(leg.map_minutes), share) if leg else 0


def quantile(law: Law, share: float) -> float:
    return round(FINE * law.quantile(share)) / FINE
