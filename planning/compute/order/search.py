"""Best first over (what is taken, what was last): exact when it ends, a bound when it is cut."""

from __future__ import annotations

from heapq import heappop, heappush
from typing import NamedTuple

from planning.compute.order.budget import Budget
from planning.compute.order.presence import Waiting
from planning.compute.order.task import Task
from planning.compute.order.walks import Walks

Key = tuple[int, int]


class Result(NamedTuple):
    """No order that keeps the rules costs less than `low`, penalties included, nor less than
    `floor` without them; `order` costs `value`."""

    low: int
    value: int
    order: tuple[int, ...]
    floor: int = 0


class Search:
    """A* with a cheap bound from the parent first and the exact one only for what comes up."""

    def __init__(self, task: Task, presence: Waiting, budget: Budget) -> None:
        self.task = task
        self.presence = presence
        self.budget = budget
        self.walks = Walks(task)
        self.paid: dict[Key, int] = {(0, -1): 0}
        self.came: dict[Key, tuple[Key, int]] = {}
        self.done: dict[int, list[tuple[int, int]]] = {}
        self.heap: list[tuple[int, int, int, int, Key, bool]] = []
        self.count = 0

    def run(self, value: int, order: tuple[int, ...]) -> Result:
        """Prove or improve an order that costs `value`."""
        everything = self.task.instance.everything
        floor = self.presence.rest(0) + self.walks.bound(0, -1) % self.task.penalty
        self.push(self.sharpen(0, (0, -1), value), 0, (0, -1), True)
        while self.heap:
            low, _, _, cost, key, sharp = heappop(self.heap)
            if low >= value:
                break
            if self.budget.over:
                return Result(low, value, order, floor)
            if cost > self.paid[key]:
                continue
            if key[0] == everything:
                return Result(cost, cost, self.path(key), floor)
            if not sharp and (bound := self.sharpen(cost, key, value)) > low:
                if bound < value:
                    self.push(bound, cost, key, True)
                continue
            if not self.dominated(cost, key):
                self.expand(low, cost, key, value)
        return Result(value, value, order, floor)

    def push(self, low: int, cost: int, key: Key, sharp: bool) -> None:
        self.count += 1
        heappush(self.heap, (low, -key[0].bit_count(), self.count, cost, key, sharp))

    def sharpen(self, cost: int, key: Key, value: int) -> int:
        if self.task.instance.price:
            self.budget.spend((self.task.instance.n - key[0].bit_count()) ** 2 / 8)
        cost += self.walks.bound(*key)
        return cost + self.presence.rest(key[0], value - cost)

    def dominated(self, cost: int, key: Key) -> bool:
        """The same set at least as cheap from another last one, the walk over to it included."""
        taken, last = key
        if last < 0:
            return False
        rest = self.task.instance.everything & ~taken
        jump = self.task.jump
        others = self.done.setdefault(taken, [])
        for paid, other in others:
            if cost >= paid + jump[other][last] and not self.meets(other, rest):
                return True
        others.append((cost, last))
        return False

    def meets(self, last: int, rest: int) -> bool:
        """Whether somebody in `last` is to be kept apart from somebody in the rest."""
        return any(
            (one >> last & 1 and other & rest) or (other >> last & 1 and one & rest)
            for one, other in self.task.apart
        )

    def expand(self, low: int, cost: int, key: Key, value: int) -> None:
        taken, last = key
        presence, walks = self.presence, self.walks
        steps = presence.steps(taken)
        ahead, stroll = presence.rest(taken), walks.bound(taken, last)
        jump = self.task.jump[last] if last >= 0 else None
        follow = self.task.jumps
        self.budget.spend(30 + len(self.presence.classes) + 4 * len(steps))
        for g in presence.choice(taken):
            hop = jump[g] if jump else 0
            paid = cost + steps[g] + hop
            new = (taken | 1 << g, g if follow else -1)
            if self.paid.get(new, paid + 1) <= paid:
                continue
            rest = presence.known.get(new[0], ahead - steps[g])
            after = max(0, walks.known.get(new, stroll - hop))
            bound = max(low, paid + rest + after)
            if bound < value:
                self.paid[new] = paid
                self.came[new] = (key, g)
                self.push(bound, paid, new, False)

    def path(self, key: Key) -> tuple[int, ...]:
        order = []
        while key in self.came:
            key, g = self.came[key]
            order.append(g)
        return tuple(reversed(order))
