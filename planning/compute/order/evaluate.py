"""What a given order costs, in plain loops over names: nothing here is shared with the search."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from planning.compute.order.values import Freed, Measure, Photograph, Problem


def exact(number: float) -> Fraction:
    """The decimal a person typed, to a millionth, without the rounding of binary fractions."""
    return Fraction(str(round(number, 6)))


def in_order(problem: Problem, order: Sequence[str]) -> list[Photograph]:
    by_key = {photograph.key: photograph for photograph in problem.photographs}
    return [by_key[key] for key in order]


def clock(photographs: Sequence[Photograph]) -> list[tuple[Fraction, Fraction]]:
    """Start and end of each photograph in minutes from the first."""
    times, now = [], Fraction(0)
    for photograph in photographs:
        times.append((now, now + exact(photograph.length)))
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
    first: dict[str, Fraction] = {}
    last: dict[str, Fraction] = {}
    presence = own = Fraction(0)
    for photograph, (start, end) in zip(photographs, times, strict=True):
        for person in photograph.people:
            first.setdefault(person, start)
            last[person] = end
            own += exact(problem.weights.get(person, 1)) * (end - start)
        presence += photograph.extra * (end if problem.presence == "gathered" else end - start)
        own += photograph.extra * (end - start)
    for person, end in last.items():
        came = first[person] if problem.presence == "called" else 0
        presence += exact(problem.weights.get(person, 1)) * (end - came)
    count = walks(photographs)
    cost = presence + exact(problem.walk_price) * count
    return Measure(float(presence), float(presence - own), count, float(cost))


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
            found[person] = Freed(person, position, float(end))
    return tuple(found.values())
