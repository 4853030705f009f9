"""Pour weights into minutes: which photographs free the most weight for each minute they take.

The set of photographs with the greatest (weight freed) / (minutes) is a maximum closure, found by
a maximum flow (Picard 1976): each class of people pours its weight x all minutes into its own
photographs, and each photograph holds its minutes x all weight.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from planning.compute.order.instance import Classes, bits


class Flow:
    """A maximum flow; `denser` is a set with more weight a minute than the whole, or 0."""

    def __init__(self, classes: Classes, minutes: Sequence[int]) -> None:
        self.masks = list(classes)
        weight = sum(classes.values())
        union = 0
        for mask in self.masks:
            union |= mask
        groups = list(bits(union))
        total = sum(minutes[g] for g in groups)
        self.room = {g: minutes[g] * weight for g in groups}
        self.held: dict[int, dict[int, int]] = {g: {} for g in groups}
        self.left = [classes[mask] * total for mask in self.masks]
        self.open = union
        self.denser = 0
        self.steps = len(self.masks) + len(groups)
        self.pour()

    def pour(self) -> None:
        by_choice = sorted(range(len(self.masks)), key=lambda i: self.masks[i].bit_count())
        for i in by_choice:
            for g in bits(self.masks[i] & self.open):
                self.put(i, g, min(self.left[i], self.room[g]))
                if not self.left[i]:
                    break
        for i in by_choice:
            while self.left[i] and self.improve(i):
                pass

    def put(self, i: int, g: int, amount: int) -> None:
        self.left[i] -= amount
        self.room[g] -= amount
        self.held[g][i] = self.held[g].get(i, 0) + amount
        if not self.room[g]:
            self.open &= ~(1 << g)

    def improve(self, start: int) -> bool:
        """Find a path from a class with weight left to a photograph with room, and use it."""
        seen = self.denser
        reached: dict[int, int] = {start: -1}
        through: dict[int, int] = {}
        queue = [start]
        for i in queue:
            new = self.masks[i] & ~seen
            seen |= new
            free = new & self.open
            if free:
                self.push((free & -free).bit_length() - 1, i, reached, through)
                return True
            for g in bits(new):
                through[g] = i
                for k in self.held[g]:
                    if k not in reached:
                        reached[k] = g
                        queue.append(k)
        self.steps += len(queue)
        self.denser = seen
        return False

    def push(self, g: int, i: int, reached: dict[int, int], through: dict[int, int]) -> None:
        path = [(i, g)]
        while reached[i] >= 0:
            path.append((through[reached[i]], reached[i]))
            i = through[reached[i]]
        self.steps += 2 * len(reached)
        amount = min(self.left[i], self.room[g])
        for (k, _), (_, back) in pairwise(path):
            amount = min(amount, self.held[back][k])
        for (k, _), (_, back) in pairwise(path):
            self.held[back][k] -= amount
            if not self.held[back][k]:
                del self.held[back][k]
        for k, to in path:
            self.held[to][k] = self.held[to].get(k, 0) + amount
        self.left[i] -= amount
        self.room[g] -= amount
        if not self.room[g]:
            self.open &= ~(1 << g)

    def reach(self, start: int) -> int:
        """The photographs that have to go with a class when the whole is as dense as can be."""
        seen = 0
        queue, known = [start], {start}
        for i in queue:
            new = self.masks[i] & ~seen
            seen |= new
            for g in bits(new):
                for k in self.held[g]:
                    if k not in known:
                        known.add(k)
                        queue.append(k)
        self.steps += len(queue)
        return seen

    def smallest(self) -> int:
        """A set as dense as the whole that no smaller set of that density lies in."""
        best = self.reach(0)
        i = 0
        while i < len(self.masks):
            if not self.masks[i] & ~best:
                mine = self.reach(i)
                if mine != best and not mine & ~best:
                    best, i = mine, 0
                    continue
            i += 1
        return best
