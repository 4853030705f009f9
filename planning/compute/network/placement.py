"""When to start each block of the photographer's: a dynamic programme over the chain.

Time between blocks keeps lateness from spreading, so every gap has a value: minus what hurts
(the next block's importance x the minutes it is expected to start late), minus a little for
standing idle. These values fall ever more slowly, so the best start of a block moves by at most
a minute when the one before it does, and whole minutes cost no more time than a coarse grid.
All sums are whole numbers: no machine rounds them otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise
from math import erfc, sqrt

from planning.compute.network.course import Course
from planning.compute.network.draws import CORRELATION
from planning.compute.network.laws import Law, drive_law
from planning.compute.network.values import Block

UNIT = 1_000_000
IDLE = 4_000  # a minute of standing idle; without it nothing says not to leave home at five
FIXED_HURTS = 5  # own choice: others wait at a fixed time


@dataclass(frozen=True, slots=True)
class Step:
    """A block of the chain: the bounds of its start (`high` None: nothing holds it), its minutes
    and `lead`, the least minutes since the end of the one before.

    `gains` is the value of each further minute of gap before it, `room` that of each further
    minute between its end and the end of its window (`closes`); beyond the lists it is 0.
    """

    low: int
    high: int | None
    minutes: int
    lead: int = 0
    gains: tuple[int, ...] = ()
    room: tuple[int, ...] = ()
    closes: int | None = None


def chance_over(limit: float, mean: float, variance: float) -> float:
    """P(X > limit) of a normal X."""
    if variance == 0:
        return float(limit < mean)
    return 0.5 * erfc((limit - mean) / sqrt(2 * variance))


@lru_cache(maxsize=512)
def gains(mean: float, variance: float, hurt: float) -> tuple[int, ...]:
    """hurt x P(lateness > g) for g = 0.5, 1.5, ... minutes, as whole UNITs, until they are 0."""
    found: list[int] = []
    while len(found) < 24 * 60:
        value = round(UNIT * hurt * chance_over(len(found) + 0.5, mean, variance))
        if value <= 0:
            break
        found.append(value)
    return tuple(found)


@dataclass(slots=True)
class Lateness:
    """Mean and spread of what has run late since the last fixed time."""

    mean: float = 0.0
    variances: float = 0.0
    deviations: float = 0.0

    def add(self, law: Law, planned: float) -> None:
        self.mean += law.mean - planned
        self.variances += law.variance
        self.deviations += sqrt(law.variance)

    @property
    def moments(self) -> tuple[float, float]:
        """Rounded, so that what is the same is found again."""
        together = CORRELATION * self.deviations**2
        return round(self.mean, 6), round((1 - CORRELATION) * self.variances + together, 6)


def hurt(block: Block) -> float:
    return block.importance / 10 * (FIXED_HURTS if block.fixed is not None else 1)


def build_steps(course: Course, bounds: dict[str, tuple[int, int | None]]) -> list[Step]:
    steps = []
    late = Lateness()
    for block, leg, lead in zip(course.chain, course.legs, course.gaps, strict=True):
        if leg is not None and steps:
            late.add(drive_law(leg.map_minutes), lead)
        low, high = bounds[block.key]
        before = gains(*late.moments, hurt(block)) if steps else ()
        if block.fixed is not None:
            late = Lateness()
        if block.start_delay is not None:
            late.add(block.start_delay, 0)
        late.add(block.law, block.law.likely)
        closes = block.window[1] if block.window else None
        room = gains(*late.moments, hurt(block)) if closes is not None else ()
        minutes = round(block.law.likely)
        steps.append(Step(low, high, minutes, lead if steps else 0, before, room, closes))
    return steps


def highs(steps: Sequence[Step]) -> list[int]:
    """The latest start worth a look: beyond the last gain, a gap only costs what the next saves."""
    found: list[int] = []
    for i, step in enumerate(steps):
        if i:
            free = found[-1] + steps[i - 1].minutes + step.lead + len(step.gains)
        else:
            free = latest_first(steps)
        free = max(step.low, free)
        found.append(free if step.high is None or (i and free < step.high) else step.high)
    return found


def latest_first(steps: Sequence[Step]) -> int:
    """From here on every later start of the first block moves all others along."""
    found, since = steps[0].low, 0
    for one, other in pairwise(steps):
        since += one.minutes + other.lead
        found = max(found, other.low - since)
    return found


def best_starts(steps: Sequence[Step]) -> list[int]:
    """The starts of greatest value, in whole minutes; of several, the earliest."""
    tops = highs(steps)
    values: list[int] = []
    choices: list[list[int]] = [[] for _ in steps]
    for i in reversed(range(len(steps))):
        step = steps[i]
        own = in_window(step, tops[i])
        if i + 1 < len(steps):
            follow, choices[i] = best_next(step, tops[i], steps[i + 1], tops[i + 1], values)
            own = [mine + then for mine, then in zip(own, follow, strict=True)]
        values = own
    found = [steps[0].low + values.index(max(values))] if steps else []
    for i in range(len(steps) - 1):
        found.append(choices[i][found[-1] - steps[i].low])
    return found


def in_window(step: Step, top: int) -> list[int]:
    """The value of each start for ending within the window."""
    if step.closes is None:
        return [0] * (top - step.low + 1)
    worth = [0, *accumulate(step.room)]
    rooms = (step.closes - step.minutes - start for start in range(step.low, top + 1))
    return [worth[min(max(room, 0), len(worth) - 1)] for room in rooms]


def best_next(
    step: Step, top: int, after: Step, after_top: int, values: Sequence[int]
) -> tuple[list[int], list[int]]:
    """For each start of `step` the best value from the next one on, and that one's start."""
    worth = [0, *accumulate(gain - IDLE for gain in after.gains)]
    most = len(worth) - 1
    worth += [worth[-1] - IDLE * i for i in range(1, max(0, after_top - step.low - most) + 1)]
    found, chosen = [], []
    at = after.low
    for start in range(step.low, top + 1):
        least = start + step.minutes + after.lead
        at = max(at, least)
        value = worth[at - least] + values[at - after.low]
        while at < after_top:
            later = worth[at + 1 - least] + values[at + 1 - after.low]
            if later <= value:
                break
            at, value = at + 1, later
        found.append(value)
        chosen.append(at)
    return found, chosen


def total(steps: Sequence[Step], starts: Sequence[int]) -> int:
    """The value of a placement, counted anew."""
    value = 0
    for i, (step, start) in enumerate(zip(steps, starts, strict=True)):
        if step.closes is not None:
            value += sum(step.room[: max(0, step.closes - step.minutes - start)])
        if i:
            gap = start - starts[i - 1] - steps[i - 1].minutes - step.lead
            value += sum(step.gains[:gap]) - IDLE * gap
    return value
