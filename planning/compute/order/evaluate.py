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


class Costs:
    """Measures orders of one list; what no order changes is worked out once."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        photographs = problem.photographs
        people = dict.fromkeys(who for photograph in photographs for who in photograph.people)
        given = problem.weights
        self.weight = {who: millionths(given[who]) if who in given else MILLION for who in people}
        bit = {who: 1 << i for i, who in enumerate(people)}
        self.frames = {p.key: sum([bit[who] for who in p.people]) for p in photographs}
        self.alone = sum(
            (sum([self.weight[who] for who in p.people]) + p.extra * MILLION) * millionths(p.length)
            for p in photographs
        )

    def measure(self, order: Sequence[str]) -> Measure:
        """Weight x minutes present, waiting, walks and presence + price x walks."""
        photographs = in_order(self.problem, order)
        presence = self.present(photographs)
        count = self.walks(photographs)
        cost = presence + millionths(self.problem.walk_price) * count * MILLION
        unit = MILLION * MILLION
        return Measure(presence / unit, (presence - self.alone) / unit, count, cost / unit)

    def present(self, photographs: Sequence[Photograph]) -> int:
        times = clock(photographs)
        called = self.problem.presence == "called"
        came: dict[str, int] = {}
        left: dict[str, int] = {}
        strangers = 0
        for photograph, (start, end) in zip(photographs, times, strict=True):
            left.update(dict.fromkeys(photograph.people, end))
            strangers += photograph.extra * (end - start if called else end)
        if called:
            for photograph, (start, _) in zip(reversed(photographs), reversed(times), strict=True):
                came.update(dict.fromkeys(photograph.people, start))
        weight = self.weight
        named = sum([weight[who] * (end - came.get(who, 0)) for who, end in left.items()])
        return named + strangers * MILLION

    def walks(self, photographs: Sequence[Photograph]) -> int:
        """People who walk in or out between neighbours; unnamed people always do."""
        return sum(
            (self.frames[one.key] ^ self.frames[other.key]).bit_count() + one.extra + other.extra
            for one, other in pairwise(photographs)
        )


def measure(problem: Problem, order: Sequence[str]) -> Measure:
    """Cost of an order: weight x minutes present, waiting, walks and presence + price x walks."""
    return Costs(problem).measure(order)


def largest_first(problem: Problem) -> tuple[str, ...]:
    """The trade's rule: biggest group first, equal ones as listed."""
    photographs = sorted(problem.photographs, key=lambda photograph: -photograph.size)
    return tuple(photograph.key for photograph in photographs)


def freed(problem: Problem, order: Sequence[str]) -> tuple[Freed, ...]:
    """When each named person has no photograph left, in the order they are freed."""
    photographs = in_order(problem, order)
    ends = [end for _, end in clock(photographs)]
    last: dict[str, int] = {}
    for place, photograph in enumerate(photographs):
        last.update(dict.fromkeys(photograph.people, place))
    return tuple(
        Freed(person, place + 1, ends[place] / MILLION)
        for place, photograph in enumerate(photographs)
        for person in photograph.people
        if last[person] == place
    )


def positions(problem: Problem, order: Sequence[str], people: set[str]) -> dict[str, int]:
    """Where in an order these people are: bit i for the photograph at i, counted from 0."""
    found = dict.fromkeys(people, 0)
    for i, photograph in enumerate(in_order(problem, order)):
        for person in people.intersection(photograph.people):
            found[person] |= 1 << i
    return found
