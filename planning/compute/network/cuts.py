"""What to cut when the day runs late: for each stretch and each lateness the least that helps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod
from typing import Literal

from planning.compute.network.changes import short_law
from planning.compute.network.course import Course
from planning.compute.network.draws import DAYS
from planning.compute.network.simulate import Minutes, on_way, run
from planning.compute.network.values import TRAVEL, Block, Cut, CutPlan
from planning.compute.travel import find_leg
from planning.compute.values import Leg

LATE = (15, 30, 45, 60, 90)
MOST_PLANS = 256  # above this, cuts are taken one by one, the least important minute first
DROPPED = 1.5  # own choice: leaving out costs more than shortening by as much

Choice = tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class Tail:
    """The chain from block `first`, which ends late, to block `last`, with the times to keep."""

    course: Course
    starts: Mapping[str, int]
    first: int
    last: int

    @property
    def opening(self) -> Block:
        return self.course.chain[self.first]

    @property
    def keeps(self) -> Block:
        return self.course.chain[self.last]

    @property
    def between(self) -> tuple[Block, ...]:
        """What can be cut: nothing fixed is among them, unless only a window is to be kept."""
        last = self.last + (self.keeps.fixed is None)
        return self.course.chain[self.first + 1 : last]


def cut_plans(course: Course, starts: Mapping[str, int]) -> tuple[CutPlan, ...]:
    return tuple(plan for tail in tails(course, starts) for plan in plans(tail))


def tails(course: Course, starts: Mapping[str, int]) -> Iterator[Tail]:
    """From the first block and from each fixed one to the next fixed one; after the last of
    these, to the last window."""
    chain = course.chain
    posts = [i for i, block in enumerate(chain) if block.fixed is not None]
    for first in dict.fromkeys([0, *posts]):
        later = [i for i in posts if i > first]
        windows = [i for i, block in enumerate(chain) if i > first and block.window is not None]
        if later:
            yield Tail(course, starts, first, later[0])
        elif windows:
            yield Tail(course, starts, first, windows[-1])


def plans(tail: Tail) -> Iterator[CutPlan]:
    """A cut that fails at one lateness fails at a later one, so the cheapest that works is looked
    for onwards from there."""
    options = [list(choices(block, block is tail.keeps)) for block in tail.between]
    if prod(len(option) for option in options) <= MOST_PLANS:
        tried = sorted((choice for choice in product(*options)), key=lambda c: price(tail, c))
    else:
        tried = one_by_one(tail, options)
    cuts = [tuple(cut for cut in choice if cut is not None) for choice in tried]
    cuts = [cut for cut in cuts if can_drive(tail, cut)]
    wanted, at = tail.course.problem.wanted, 0
    for late in LATE:
        found = 0.0
        while at < len(cuts) and (found := chance(tail, late, cuts[at])) < wanted:
            at += 1
        if at < len(cuts):
            yield plan(tail, late, cuts[at], found, tail.keeps.key, True)
        else:
            found, number = max((chance(tail, late, cut), -i) for i, cut in enumerate(cuts))
            best = cuts[-number]
            yield plan(tail, late, best, found, missed(tail, late, best), False)


def plan(tail: Tail, late: int, cuts: Choice, found: float, keeps: str, reached: bool) -> CutPlan:
    otherwise = None if reached else left_to_do(tail, keeps)
    return CutPlan(tail.opening.key, late, keeps, cuts, found, reached, otherwise)


def left_to_do(tail: Tail, keeps: str) -> Literal["move", "ask", "miss"]:
    block = next(block for block in tail.course.chain if block.key == keeps)
    if block.fixed is None:
        return "miss"
    return "move" if block.movable else "ask"


def choices(block: Block, kept: bool) -> Iterator[Cut | None]:
    yield None
    if short_law(block) is not None:
        yield Cut(block.key, block.short)
    if block.droppable and not kept:
        yield Cut(block.key, None)


def price(tail: Tail, choice: Sequence[Cut | None]) -> tuple[float, int]:
    """Importance x minutes lost; of equals, the fewer cuts."""
    cost = 0.0
    for block, cut in zip(tail.between, choice, strict=True):
        if cut is not None:
            lost = block.law.likely - (cut.minutes or 0)
            cost += block.importance * lost * (DROPPED if cut.minutes is None else 1)
    return round(cost, 6), sum(cut is not None for cut in choice)


def one_by_one(tail: Tail, options: list[list[Cut | None]]) -> list[list[Cut | None]]:
    """Each cut beside those before it, from the least important block to the most."""
    blocks = tail.between
    order = [
        (blocks[i].importance * (DROPPED if cut.minutes is None else 1), i, j)
        for i, option in enumerate(options)
        for j, cut in enumerate(option)
        if cut is not None
    ]
    choice: list[Cut | None] = [None] * len(blocks)
    tried = [list(choice)]
    for _, i, j in sorted(order):
        choice[i] = options[i][j]
        tried.append(list(choice))
    return tried


def left(tail: Tail, cuts: Choice) -> Iterator[tuple[Block, Cut | None, Leg | None, bool]]:
    """What is left of the chain after the opening block, with its drives (and whether known)."""
    by_key = {cut.key: cut for cut in cuts}
    legs = {block.key: i for i, block in enumerate(tail.course.chain)}
    before, gone = tail.opening, False
    where = standing(tail)
    for block in tail.course.chain[tail.first + 1 : tail.last + 1]:
        cut = by_key.get(block.key)
        if cut is not None and cut.minutes is None:
            gone = True
            continue
        leg, known = tail.course.legs[legs[block.key]], True
        if gone:
            leg, known = redriven(tail, where, before, block)
        yield block, cut, leg, known
        where = block.place if block.place is not None else where
        before, gone = block, False


def standing(tail: Tail) -> str | None:
    """Where people are at the end of the opening block."""
    places = [b.place for b in tail.course.chain[: tail.first + 1] if b.place is not None]
    return places[-1] if places else tail.course.problem.home


def redriven(tail: Tail, where: str | None, before: Block, block: Block) -> tuple[Leg | None, bool]:
    if block.place is None or where in (None, block.place) or TRAVEL in (before.kind, block.kind):
        return None, True
    leg = find_leg(tail.course.problem.legs, where, block.place)
    return leg, leg is not None


def can_drive(tail: Tail, cuts: Choice) -> bool:
    return all(known for *_, known in left(tail, cuts))


def chance(tail: Tail, late: int, cuts: Choice, days: int = DAYS) -> float:
    """The share of days on which the fixed time and all windows on the way are kept, if the
    opening block ends that late."""
    kept = [True] * days
    for _, one in kept_times(tail, late, cuts, days):
        kept = [both and here for both, here in zip(kept, one, strict=True)]
    return kept.count(True) / days


def kept_times(
    tail: Tail, late: int, cuts: Choice, days: int = DAYS
) -> Iterator[tuple[str, list[bool]]]:
    """Each fixed time or window on the way, and the days on which it is kept."""
    opening = tail.opening
    at = tail.starts[opening.key] + opening.law.likely + late
    ends: Minutes = (float(at),) * days
    for block, cut, leg, _ in left(tail, cuts):
        ready = on_way(ends, block.key, leg)
        if block.fixed is not None:
            yield block.key, [there <= block.fixed for there in ready]
            return
        law = None if cut is None else block.law.shortened(cut.minutes or 0)
        ends = run(block, tail.starts[block.key], ready, law)
        if block.window is not None:
            closes = block.window[1]
            yield block.key, [end <= closes for end in ends]


def missed(tail: Tail, late: int, cuts: Choice) -> str:
    """What is kept on the fewest days; of equals, the first."""
    counts = [
        (one.count(True), i, key) for i, (key, one) in enumerate(kept_times(tail, late, cuts))
    ]
    return min(counts)[2]
