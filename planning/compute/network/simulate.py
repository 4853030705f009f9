"""2,000 simulated days: a block starts when it is planned, or when people are there, if later."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

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
    course: Course,
    starts: Mapping[str, int],
    leave: int | None = None,
    days: int = DAYS,
    known: Simulated | None = None,
    changed: Collection[str] = (),
) -> Simulated:
    """`leave` is when the photographer leaves home, if the day begins with that drive. Where these
    days are `known` but for the blocks that `changed`, only what follows from them is simulated."""
    ready: dict[str, Minutes] = {}
    ends: dict[str, Minutes] = {}
    home = None if leave is None else (float(leave),) * days
    for block in course.blocks:
        key = block.key
        waits = [(home if one is None else ends[one], leg) for one, leg in course.waits[key]]
        if known and key not in changed and follows(course, key, ends, known):
            ready[key], ends[key] = known.ready[key], known.ends[key]
            continue
        there = [on_way(end, key, leg) for end, leg in waits if end is not None]
        ready[key] = latest(there) if there else (float(starts[key]),) * days
        ends[key] = run(block, starts[key], ready[key])
        if known and ends[key] == known.ends[key]:
            ends[key] = known.ends[key]
    return Simulated(ready, ends)


def follows(course: Course, key: str, ends: Mapping[str, Minutes], known: Simulated) -> bool:
    """Whether all that the block waits for ends as it did."""
    return all(one is None or ends[one] is known.ends[one] for one, _ in course.waits[key])


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


def minute_for(times: Minutes, share: float) -> int:
    """The first whole minute that is in time on a `share` (above 0, to 1) of the days."""
    return ceil(sorted(times)[ceil(share * len(times)) - 1])


def share_until(times: Minutes, limit: int) -> float:
    return len([time for time in times if time <= limit]) / len(times)
