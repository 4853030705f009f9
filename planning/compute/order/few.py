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
        self.unions = {0: 0}
        self.weights = {0: 0}
        self.known: dict[tuple[int, int], int] = {}

    def time(self, groups: int) -> int:
        """Minutes of these photographs together."""
        if (found := self.times.get(groups)) is None:
            low = groups & -groups
            found = self.minutes[low.bit_length() - 1] + self.time(groups ^ low)
            self.times[groups] = found
        return found

    def union(self, people: int) -> int:
        """All photographs of these people."""
        if (found := self.unions.get(people)) is None:
            low = people & -people
            found = self.who[low.bit_length() - 1][1] | self.union(people ^ low)
            self.unions[people] = found
        return found

    def weight(self, people: int) -> int:
        if (found := self.weights.get(people)) is None:
            low = people & -people
            found = self.who[low.bit_length() - 1][2] + self.weight(people ^ low)
            self.weights[people] = found
        return found

    def least(self, people: int, groups: int) -> int:
        """Least weighted presence of people who each have something among `groups`, no group
        without one of them."""
        key = (people, groups)
        if (best := self.known.get(key)) is not None:
            return best
        here = [
            (bit, more) for bit, mask, _ in self.who if bit & people and (more := mask & groups)
        ]
        weight = self.weight(people)
        self.budget.spend(8)
        known, times, unions = self.known, self.times, self.unions
        for first in {mask for _, mask in here}:
            spent = times.get(first)
            cost = (self.time(first) if spent is None else spent) * weight
            if best is not None and cost >= best:
                continue
            rest = groups & ~first
            left = sum([bit for bit, mask in here if mask & rest])
            if left:
                union = unions.get(left)
                further = rest & (self.union(left) if union is None else union)
                low = known.get((left, further))
                cost += self.least(left, further) if low is None else low
            if best is None or cost < best:
                best = cost
        assert best is not None  # noqa: S101 - people is never empty
        known[key] = best
        return best
