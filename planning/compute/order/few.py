"""A few people who all wait: the least presence by who is free next, remembered by who and what.

The same recursion as in gathered.py, without taking the list apart: faster up to about ten people
because many sets of photographs already taken lead to the same few people and photographs.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import or_

from planning.compute.order.budget import Budget
from planning.compute.order.sums import Sums

Who = list[tuple[int, int, int]]


class Few:
    """People p with photographs `masks[p]` (one bit each) and `weights[p]`."""

    def __init__(
        self, masks: Sequence[int], weights: Sequence[int], minutes: Sequence[int], budget: Budget
    ) -> None:
        self.who: Who = [(1 << p, mask, weights[p]) for p, mask in enumerate(masks)]
        self.budget = budget
        self.times = Sums(minutes)
        self.unions = Sums(masks, or_)
        self.weights = Sums(weights)
        self.known: dict[tuple[int, int], int] = {}
        self.floors: dict[tuple[int, int], int] = {}

    def least(self, people: int, groups: int, limit: int) -> int:
        """Least weighted presence of people who each have something among `groups`, no group
        without one of them; `limit` where it is that or more."""
        key = (people, groups)
        if (best := self.known.get(key)) is not None:
            return best
        if self.floors.get(key, 0) >= limit:
            return limit
        here = [
            (bit, more, weight)
            for bit, mask, weight in self.who
            if bit & people and (more := mask & groups)
        ]
        self.budget.spend(8)
        best = self.by_first(here, groups, self.weights[people], limit)
        (self.known if best < limit else self.floors)[key] = best
        return best

    def by_first(self, here: Who, groups: int, weight: int, best: int) -> int:
        """Who is free first, everybody else waiting that long; `best` unless it can be beaten."""
        times = self.times
        for spent, first in sorted([(times[mask], mask) for mask in {mask for _, mask, _ in here}]):
            cost = spent * weight
            if cost >= best:
                break
            rest = groups & ~first
            left, low = 0, cost
            for bit, mask, own in here:
                if more := mask & rest:
                    left |= bit
                    low += own * times[more]
            if low >= best:
                continue
            if left:
                cost += self.least(left, rest & self.unions[left], best - cost)
            best = min(best, cost)
        return best
