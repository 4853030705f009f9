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
    rooms = [frozenset(photograph.people) for photograph in photographs]
    for (one, room), (other, next_room) in pairwise(zip(photographs, rooms, strict=True)):
        total += len(room ^ next_room) + one.extra + other.extra
    return total


def measure(problem: Problem, order: Sequence[str]) -> Measure:
    """Cost of an order: weight x minutes present, waiting, walks and presence + price x walks."""
    photographs = in_order(problem, order)
    times = clock(photographs)
    people = {person for photograph in photographs for person in photograph.people}
    weight = dict.fromkeys(people, MILLION)
    weight |= {who: millionths(given) for who, given in problem.weights.items() if who in people}
    last: dict[str, int] = {}
    first: dict[str, int] = {}
    presence = alone = 0
    for photograph, (start, end) in zip(photographs, times, strict=True):
        last.update(dict.fromkeys(photograph.people, end))
        strangers = photograph.extra * MILLION
        alone += (sum([weight[who] for who in photograph.people]) + strangers) * (end - start)
        presence += strangers * (end if problem.presence == "gathered" else end - start)
    if problem.presence == "called":
        for photograph, (start, _) in zip(reversed(photographs), reversed(times), strict=True):
            first.update(dict.fromkeys(photograph.people, start))
    presence += sum([weight[who] * (end - first.get(who, 0)) for who, end in last.items()])
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
