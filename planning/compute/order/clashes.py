"""Which rules cannot be kept together: a shortest circle, or what has to come too early."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Protocol

from planning.compute.order.budget import Budget
from planning.compute.order.instance import bits
from planning.compute.order.values import Before, First, Free, Last, Rule

Step = tuple[int, int]  # a photograph, and the number of the rule that leads to it


class Read(Protocol):
    """Numbers of the photographs, and the photographs of the people whom rules name."""

    @property
    def number(self) -> Mapping[str, int]: ...
    @property
    def masks(self) -> Mapping[str, int]: ...


def smallest(
    reading: Read, kept: Sequence[Rule], new: Rule, budget: Budget
) -> tuple[Rule, ...] | None:
    """Rules of `kept` that cannot be kept with `new`, none of which could be left out, and `new`
    last; None when the budget does not last."""
    budget.spend(20 + len(kept) / 2)
    if budget.over:
        return None
    circle = shortest_circle(reading.number, kept, new)
    if circle is None:
        circle = too_early(reading, kept, new, budget)
    return None if circle is None else (*(kept[i] for i in sorted(circle)), new)


def shortest_circle(number: Mapping[str, int], kept: Sequence[Rule], new: Rule) -> list[int] | None:
    """Numbers of the fewest rules that close a circle with `new`, if any do."""
    n = len(number)
    match new:
        case Before(one, other):
            return path(number, kept, number[other], number[one])
        case First(group):
            against = (i for i, rule in enumerate(kept) if ahead(rule, group, n))
        case Last(group):
            against = (i for i, rule in enumerate(kept) if behind(rule, group, n))
        case _:
            return None
    found = next(against, None)
    return None if found is None else [found]


def ahead(rule: Rule, group: str, n: int) -> bool:
    """Whether a rule by itself puts another photograph before this one."""
    match rule:
        case Before(_, other):
            return other == group
        case First(first):
            return first != group
        case Last(last):
            return last == group and n > 1
    return False


def behind(rule: Rule, group: str, n: int) -> bool:
    match rule:
        case Before(one, _):
            return one == group
        case First(first):
            return first == group and n > 1
        case Last(last):
            return last != group
    return False


def path(
    number: Mapping[str, int], kept: Sequence[Rule], start: int, goal: int
) -> list[int] | None:
    """The fewest rules by which `start` comes before `goal`."""
    out: list[list[Step]] = [[] for _ in number]
    first: dict[int, int] = {}
    last: dict[int, int] = {}
    for i, rule in enumerate(kept):
        match rule:
            case Before(one, other):
                out[number[one]].append((number[other], i))
            case First(group):
                first.setdefault(number[group], i)
            case Last(group):
                last.setdefault(number[group], i)
    came: dict[int, Step] = {start: (start, -1)}
    queue = [start]
    for f in queue:
        if f == goal:
            return list(trace(came, goal))
        everywhere = [(g, first[f]) for g in range(len(out))] if f in first else []
        for g, i in (*out[f], *everywhere, *last.items()):
            if g not in came:
                came[g] = (f, i)
                queue.append(g)
    return None


def trace(came: Mapping[int, Step], goal: int) -> Iterator[int]:
    f, rule = came[goal]
    while rule >= 0:
        yield rule
        f, rule = came[f]


def too_early(reading: Read, kept: Sequence[Rule], new: Rule, budget: Budget) -> list[int] | None:
    """Numbers of rules that with `new` ask for more photographs by some position than it holds,
    each of them needed for that."""
    n = len(reading.number)
    rules = (*kept, new)
    dates = sorted({rule.by_position for rule in rules if isinstance(rule, Free)})
    k = next((k for k in dates if early(reading, rules, k).bit_count() > k), None)
    core: list[int] = []
    while k is not None:
        chosen = [*(kept[i] for i in core), new]
        if early(reading, chosen, k).bit_count() > k:
            return core
        # The first rules up to one without which it would still work: that one is needed.
        low, high = 0, min(core, default=len(kept)) - 1
        while low < high:
            if budget.over:
                return None
            budget.spend(10 + (n + len(kept)) / 4)
            middle = (low + high) // 2
            if early(reading, [*kept[: middle + 1], *chosen], k).bit_count() > k:
                high = middle
            else:
                low = middle + 1
        core.append(low)
    return None


def early(reading: Read, rules: Iterable[Rule], k: int) -> int:
    """Everything that has to be among the first k photographs."""
    number = reading.number
    before = dict.fromkeys(range(len(number)), 0)
    due = lead = 0
    for rule in rules:
        match rule:
            case Free(person, position) if position <= k:
                due |= reading.masks[person]
            case Before(one, other):
                before[number[other]] |= 1 << number[one]
            case First(group):
                lead |= 1 << number[group]
            case Last(group):
                before[number[group]] |= (1 << len(number)) - 1
    found, new = 0, due | lead if due else 0
    while new:
        found |= new
        needed = 0
        for g in bits(new):
            needed |= before[g]
        new = needed & ~found
    return found
