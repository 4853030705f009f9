"""A few people who all wait: the least presence by who is free next, remembered by who and what.

The same recursion as in gathered.py, without taking the list apart: faster up to about ten people
because many sets of photographs already taken lead to the same few people and photographs.
"""

from __future__ import annotations

from collections.abc import Sequence

from planning.compute.order.budget import Budget


class Few:
    """People p with photographs `masks[p]` (one bit each) and `weights[p]`."""

    def __init__(
        self, masks: Sequence[int], weights: Sequence[int], minutes: Sequence[int], budget: Budget
    ) -> None:
        self.who = [(1 << p, mask, weights[p]) for p, mask in enumerate(masks)]
        self.minutes = minutes
        self.budget = budget
        self.times = {0: 0}
        self.known: dict[tuple[int, int], int] = {}

    def time(self, groups: int) -> int:
        """Minutes of these photographs together."""
        if (found := self.times.get(groups)) is None:
            low = groups & -groups
            found = self.minutes[low.bit_length() - 1] + self.time(groups ^ low)
            self.times[groups] = found
        return found

    def union(self, people: int) -> int:
        groups = 0
        for bit, mask, _ in self.who:
            if people & bit:
                groups |= mask
        return groups

    def least(self, people: int, groups: int) -> int:
        """Least weighted presence of people who each have something among `groups`, no group
        without one of them."""
        key = (people, groups)
        if (best := self.known.get(key)) is not None:
            return best
        here = [(bit, mask & groups, w) for bit, mask, w in self.who if people & bit]
        weight = sum([w for _, _, w in here])
        self.budget.spend(8)
        known, times = self.known, self.times
        for first in {mask for _, mask, _ in here}:
            rest = groups & ~first
            left = union = 0
            for bit, mask, _ in here:
                if more := mask & rest:
                    left |= bit
                    union |= more
            spent = times.get(first)
            cost = (self.time(first) if spent is None else spent) * weight
            if left and (best is None or cost < best):
                further = known.get((left, union))
                cost += self.least(left, union) if further is None else further
            if best is None or cost < best:
                best = cost
        assert best is not None  # noqa: S101 - people is never empty
        known[key] = best
        return best
