"""2,000 simulated days: a block starts when it is planned, or when people are there, if later."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planning.compute.network.course import Course
from planning.compute.network.draws import DAYS, minutes
from planning.compute.network.laws import Law, drive_law
from planning.compute.network.values import Block, Promise
from planning.compute.values import Leg

# What days without a miss can say: the rule of three, 3 / n (Hanley & Lippman-Hand, JAMA 249
# (1983) 1743-1745, from memory). No promise is told as more certain.
CEILING = 1 - 3 / DAYS

Minutes = Sequence[float]


@dataclass(frozen=True, slots=True)
class Simulated:
    """For each block the minute it could start, and the minute it ends, on each day."""

    ready: Mapping[str, Minutes]
    ends: Mapping[str, Minutes]


def simulate(
    course: Course, starts: Mapping[str, int], leave: int | None = None, days: int = DAYS
) -> Simulated:
    """`leave` is when the photographer leaves home, if the day begins with that drive."""
    ready: dict[str, Minutes] = {}
    ends: dict[str, Minutes] = {}
    legs = {block.key: leg for block, leg in zip(course.chain, course.legs, strict=True)}
    before: Minutes | None = None if leave is None else (float(leave),) * days
    for block in course.blocks:
        waits = [
            on_way(ends[key], block.key, course.ways.get((key, block.key))) for key in block.after
        ]
        if block.photographer and before is not None:
            waits.append(on_way(before, block.key, legs[block.key]))
        planned = starts[block.key]
        there = latest(waits) if waits else (float(planned),) * days
        ready[block.key] = there
        ends[block.key] = run(block, planned, there)
        if block.photographer:
            before = ends[block.key]
    return Simulated(ready, ends)


def latest(waits: Sequence[Minutes]) -> Minutes:
    if len(waits) == 1:
        return waits[0]
    return [max(of_day) for of_day in zip(*waits, strict=True)]


def on_way(ends: Minutes, key: str, leg: Leg | None) -> Minutes:
    """When people are there who leave at these times."""
    if leg is None:
        return ends
    drives = minutes(f"drive {key}", drive_law(leg.map_minutes), len(ends))
    return [end + drive for end, drive in zip(ends, drives, strict=True)]


def run(block: Block, planned: int, ready: Minutes, law: Law | None = None) -> list[float]:
    """When the block ends, started at the planned time (and its own delay) or when ready."""
    lasts = minutes(f"block {block.key}", law or block.law, len(ready))
    if block.start_delay is None:
        return [
            (there if there > planned else planned) + last
            for there, last in zip(ready, lasts, strict=True)
        ]
    delays = minutes(f"delay {block.key}", block.start_delay, len(ready))
    return [
        (there if there > planned + delay else planned + delay) + last
        for there, delay, last in zip(ready, delays, lasts, strict=True)
    ]


def promises(course: Course, days: Simulated) -> tuple[Promise, ...]:
    """The chance that people are ready for each fixed block at its time."""
    return tuple(
        Promise(block.key, share_until(days.ready[block.key], block.fixed))
        for block in course.blocks
        if block.fixed is not None
    )


def windows(course: Course, days: Simulated) -> tuple[Promise, ...]:
    """The chance that each block with a window ends within it."""
    return tuple(
        Promise(block.key, share_until(days.ends[block.key], block.window[1]))
        for block in course.blocks
        if block.window is not None
    )


def share_until(times: Minutes, limit: int) -> float:
    return len([time for time in times if time <= limit]) / len(times)
