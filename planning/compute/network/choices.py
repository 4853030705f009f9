"""The cuts to choose from when a block ends late, and the cheapest of them that are enough."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product
from math import prod

from planning.compute.network.changes import short_law
from planning.compute.network.course import Course
from planning.compute.network.limits import Choice, Limits, is_drop
from planning.compute.network.values import TRAVEL, Block, Cut

MOST_CHOICES = 256  # above this, cuts are taken one by one, the least important minute first
DROPPED = 1.5  # own choice: leaving out costs more than shortening by as much


@dataclass(frozen=True)
class Tail:
    """The chain from block `first`, which ends late, to block `last`, which is to be kept."""

    course: Course
    starts: Mapping[str, int]
    first: int
    last: int
    shared: dict[tuple[int, bool], Limits]
    by_price: dict[tuple[int, ...], list[Choice]] = field(default_factory=dict)

    @property
    def opening(self) -> Block:
        return self.course.chain[self.first]

    @property
    def keeps(self) -> Block:
        return self.course.chain[self.last]

    @cached_property
    def between(self) -> tuple[Block, ...]:
        """What can be cut: nothing fixed is among them, unless only a window is to be kept."""
        last = self.last + (self.keeps.fixed is None)
        return self.course.chain[self.first + 1 : last]

    @cached_property
    def options(self) -> list[list[Cut | None]]:
        """For each block between nothing, its short form, and to leave it out."""
        return [list(options(block, block is self.keeps)) for block in self.between]

    @cached_property
    def more_is_surer(self) -> bool:
        """Whether each further cut lets the day run later: without drives it does."""
        chain = self.course.chain[self.first : self.last + 1]
        drives = self.course.legs[self.first + 1 : self.last + 1]
        drops = any(is_drop(cut) for option in self.options for cut in option)
        walks = all(leg is None for leg in drives) and all(b.kind != TRAVEL for b in chain)
        return (walks or not drops) and all(short_is_shorter(block) for block in self.between)

    def chance(self, late: int, choice: Choice) -> float | None:
        """The share of days on which the fixed time and all windows on the way are kept, if the
        opening block ends that late; None where a drive is not known."""
        return self.kept(self.last, False, late, choice)

    def kept(self, last: int, alone: bool, late: int, choice: Choice) -> float | None:
        if (last, alone) not in self.shared:
            self.shared[last, alone] = Limits(self.course, self.starts, last, alone)
        at = self.starts[self.opening.key] + self.opening.law.likely + late
        return self.shared[last, alone].chance(self.first, at, choice)


def options(block: Block, kept: bool) -> Iterator[Cut | None]:
    yield None
    if short_law(block) is not None:
        yield Cut(block.key, block.short)
    if block.droppable and not kept:
        yield Cut(block.key, None)


def short_is_shorter(block: Block) -> bool:
    short = short_law(block)
    return short is None or (short.least <= block.law.least and short.most <= block.law.most)


def cost(block: Block, cut: Cut | None) -> float:
    """Importance x minutes lost."""
    if cut is None:
        return 0.0
    lost = block.law.likely - (cut.minutes or 0)
    return block.importance * lost * (DROPPED if is_drop(cut) else 1)


def price(tail: Tail, choice: Choice) -> tuple[float, int]:
    """Of equals, the fewer cuts."""
    costs = sum(cost(block, cut) for block, cut in zip(tail.between, choice, strict=True))
    return round(costs, 6), sum(cut is not None for cut in choice)


def cheapest(tail: Tail, late: int, least: float) -> Choice | None:
    """The cheapest choice with at least this chance."""
    for choice in worth_trying(tail, late, least):
        if (found := tail.chance(late, choice)) is not None and found >= least:
            return choice
    return None


def surest(tail: Tail, late: int) -> Choice:
    """The choice with the best chance; of equals, the cheapest."""
    if tail.more_is_surer and few(tail):
        found = tail.chance(late, all_cut(tail))
    else:
        found = max(tail.chance(late, choice) or 0 for choice in by_price(tail, ()))
    return cheapest(tail, late, found or 0) or (None,) * len(tail.between)


def few(tail: Tail) -> bool:
    return prod(len(option) for option in tail.options) <= MOST_CHOICES


def worth_trying(tail: Tail, late: int, least: float) -> list[Choice]:
    """Choices by price, without those that lack a cut which even all others cannot spare."""
    if not (few(tail) and tail.more_is_surer):
        return by_price(tail, ())
    full, needed = all_cut(tail), []
    if (tail.chance(late, full) or 0) < least:
        return []
    for i, option in enumerate(tail.options):
        level = 0
        while (tail.chance(late, (*full[:i], option[level], *full[i + 1 :])) or 0) < least:
            level += 1
        needed.append(level)
    return by_price(tail, tuple(needed))


def all_cut(tail: Tail) -> Choice:
    return tuple(option[-1] for option in tail.options)


def by_price(tail: Tail, needed: tuple[int, ...]) -> list[Choice]:
    """All choices that cut each block at least so much, the cheapest first."""
    if not few(tail):
        return one_by_one(tail)
    if needed not in tail.by_price:
        levels = needed or (0,) * len(tail.options)
        left = (option[level:] for option, level in zip(tail.options, levels, strict=True))
        tail.by_price[needed] = sorted(product(*left), key=lambda choice: price(tail, choice))
    return tail.by_price[needed]


def one_by_one(tail: Tail) -> list[Choice]:
    """Each cut beside those before it, from the least important block to the most."""
    order = [
        (tail.between[i].importance * (DROPPED if is_drop(cut) else 1), i, j)
        for i, option in enumerate(tail.options)
        for j, cut in enumerate(option)
        if cut is not None
    ]
    choice: list[Cut | None] = [None] * len(tail.options)
    tried = [tuple(choice)]
    for _, i, j in sorted(order):
        choice[i] = tail.options[i][j]
        tried.append(tuple(choice))
    return tried
