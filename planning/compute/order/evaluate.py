"""What a given order costs, in plain loops over names: nothing here is shared with the search."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from planning.compute.order.values import Freed, Measure, Photograph, Problem

MILLION = 1_000_000


def millionths(number: float) -> int:
    """A typed decimal without the rounding of binary fractions."""
    return round(number * MILLION)


def in_order(problem: Problem, order: Sequence[str]) -> list[Photograph]:
    by_key = {photograph.key: photograph for photograph in problem.photographs}
    return [by_key[key] for key in order]


def clock(photographs: Sequence[Photograph]) -> list[tuple[int, int]]:
    """Start and end of each photograph in millionths of a minute from the first."""
    times, now = [], 0
    for photograph in photographs:
        times.append((now, now + millionths(photograph.length)))
        now = times[-1][1]
    return times


def walks(photographs: Sequence[Photograph]) -> int:
    """People who walk in or out between neighbours; unnamed people always do."""
    total = 0
    for one, other in pairwise(photographs):
        total += len(set(one.people) ^ set(other.people)) + one.extra + other.extra
    return total


def measure(problem: Problem, order: Sequence[str]) -> Measure:
    """Cost of an order: weight x minutes present, waiting, walks and presence + price x walks."""
    photographs = in_order(problem, order)
    times = clock(photographs)
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    own: dict[str, int] = {}
    strangers_present = strangers_own = 0
    for photograph, (start, end) in zip(photographs, times, strict=True):
        for person in photograph.people:
            first.setdefault(person, start)
            last[person] = end
            own[person] = own.get(person, 0) + end - start
        here = end if problem.presence == "gathered" else end - start
        strangers_present += photograph.extra * here
        strangers_own += photograph.extra * (end - start)
    presence, alone = strangers_present * MILLION, strangers_own * MILLION
    for person, end in last.items():
        weight = millionths(problem.weights.get(person, 1))
        came = first[person] if problem.presence == "called" else 0
        presence += weight * (end - came)
        alone += weight * own[person]
    count = walks(photographs)
    cost = presence + millionths(problem.walk_price) * count * MILLION
    unit = MILLION * MILLION
    return Measure(presence / unit, (presence - alone) / unit, count, cost / unit)


def largest_first(problem: Problem) -> tuple[str, ...]:
    """The trade's rule: biggest group first, equal ones as listed."""
    photographs = sorted(problem.photographs, key=lambda photograph: -photograph.size)
    return tuple(photograph.key for photograph in photographs)


def freed(problem: Problem, order: Sequence[str]) -> tuple[Freed, ...]:
    """When each named person has no photograph left, in the order they are freed."""
    photographs = in_order(problem, order)
    found: dict[str, Freed] = {}
    times = clock(photographs)
    for position, (photograph, (_, end)) in enumerate(zip(photographs, times, strict=True), 1):
        for person in photograph.people:
            found.pop(person, None)
            found[person] = Freed(person, position, end / MILLION)
    return tuple(found.values())
