"""How late a block of the chain may end, on each simulated day, so that what follows is in time.

Counted from the time to be kept backwards, so that all blocks before it, all latenesses and all
cuts share the work: a chance is then the share of days whose limit is not yet passed.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf

from planning.compute.network.course import Course
from planning.compute.network.draws import DAYS, minutes
from planning.compute.network.laws import drive_law
from planning.compute.network.simulate import Minutes
from planning.compute.network.values import TRAVEL, Cut
from planning.compute.travel import find_leg
from planning.compute.values import Leg

Choice = tuple[Cut | None, ...]  # for the blocks after another, in the order of the day


@dataclass(slots=True)
class Limits:
    """For block `last` of the chain, a fixed time or a window, and all windows on the way to it;
    `alone`, for that one only."""

    course: Course
    starts: Mapping[str, int]
    last: int
    alone: bool = False
    days: int = DAYS
    ends: dict[tuple[int, str | None, Choice], Minutes | None] = field(default_factory=dict)
    readies: dict[tuple[int, str | None, Choice], Minutes | None] = field(default_factory=dict)
    sorted: dict[tuple[int, str | None, Choice], Minutes] = field(default_factory=dict)

    def chance(self, first: int, at: float, choice: Choice) -> float | None:
        """The share of days on which all is kept when block `first` ends at that minute; None
        where a drive past what is left out is not known."""
        key = (first, self.standing(first), choice)
        if (limits := self.end(*key)) is None:
            return None
        if key not in self.sorted:
            self.sorted[key] = sorted(limits)
        return (self.days - bisect_left(self.sorted[key], at)) / self.days

    def standing(self, first: int) -> str | None:
        """Where people are at the end of a block."""
        places = [b.place for b in self.course.chain[: first + 1] if b.place is not None]
        return places[-1] if places else self.course.problem.home

    def end(self, at: int, where: str | None, choice: Choice) -> Minutes | None:
        """Until when block `at` must have ended, there, with these cuts after it."""
        key = (at, where, choice)
        if key not in self.ends:
            self.ends[key] = self.count_end(at, where, choice)
        return self.ends[key]

    def count_end(self, at: int, where: str | None, choice: Choice) -> Minutes | None:
        if at == self.last:
            return (inf,) * self.days
        gone = next((i for i, cut in enumerate(choice) if not is_drop(cut)), len(choice))
        after = at + 1 + gone
        leg, known = self.drive(at, where, after) if gone else (self.course.legs[after], True)
        if not known or (ready := self.ready(after, where, choice[gone:])) is None:
            return None
        if leg is None:
            return ready
        key, law = self.course.chain[after].key, drive_law(leg.map_minutes)
        drives = minutes(f"drive {key}", law, self.days)
        return [there - drive for there, drive in zip(ready, drives, strict=True)]

    def drive(self, at: int, where: str | None, after: int) -> tuple[Leg | None, bool]:
        """From one block past others that are left out; and whether it is known."""
        before, block = self.course.chain[at], self.course.chain[after]
        if block.place is None or where in (None, block.place):
            return None, True
        if TRAVEL in (before.kind, block.kind):
            return None, True
        leg = find_leg(self.course.problem.legs, where, block.place)
        return leg, leg is not None

    def ready(self, at: int, where: str | None, choice: Choice) -> Minutes | None:
        """Until when people must be there for block `at`, itself cut by the first of the cuts."""
        key = (at, where, choice)
        if key not in self.readies:
            self.readies[key] = self.count_ready(at, where, choice)
        return self.readies[key]

    def count_ready(self, at: int, where: str | None, choice: Choice) -> Minutes | None:
        block = self.course.chain[at]
        if block.fixed is not None:
            return (float(block.fixed),) * self.days
        there = block.place if block.place is not None else where
        if (limits := self.end(at, there, choice[1:])) is None:
            return None
        cut = choice[0] if choice else None
        law = block.law if cut is None else block.law.shortened(cut.minutes or 0)
        lasts = minutes(f"block {block.key}", law, self.days)
        kept = block.window if at == self.last or not self.alone else None
        closes = inf if kept is None else kept[1]
        planned = self.starts[block.key]
        if closes < inf:
            limits = [min(limit, closes) for limit in limits]
        if block.start_delay is None:
            return [
                latest if (latest := limit - last) >= planned else -inf
                for limit, last in zip(limits, lasts, strict=True)
            ]
        delays = minutes(f"delay {block.key}", block.start_delay, self.days)
        return [
            latest if (latest := limit - last) >= planned + delay else -inf
            for limit, last, delay in zip(limits, lasts, delays, strict=True)
        ]


def is_drop(cut: Cut | None) -> bool:
    return cut is not None and cut.minutes is None
