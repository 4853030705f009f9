"""Everybody comes for their first photograph and leaves after their last."""

from __future__ import annotations

from collections.abc import Iterable

from planning.compute.order.budget import Budget
from planning.compute.order.few import Few
from planning.compute.order.gathered import Found, without
from planning.compute.order.instance import Classes, bits
from planning.compute.order.presence import Waiting
from planning.compute.order.task import Task

# Up to FEW people at once by recursion; PART people are quick enough for a first look.
FEW, PART = 12, 6


class Calling(Waiting):
    """First to last: those already here are the gathered problem, the others cost their own."""

    def __init__(self, task: Task, budget: Budget) -> None:
        super().__init__(task, budget)
        classes = task.instance.classes
        stay = {mask: weight for mask, weight in classes.items() if mask & (mask - 1)}
        closed = [next(iter(self.sidney.closed({mask: 1}))) for mask in stay]
        self.few = Few(closed, list(stay.values()), self.minutes, budget)
        self.own = {mask: weight * self.few.time(mask) for mask, weight in classes.items()}
        self.people = list(zip((bit for bit, _, _ in self.few.who), stay, strict=True))
        heavy = sorted(self.people, key=lambda person: -self.own[person[1]])
        bits_ = [bit for bit, _ in heavy]
        self.parts = [sum(bits_[i : i + PART]) for i in range(0, len(bits_), PART)]
        self.free_choice = not (task.jumps or task.limits.due or any(task.limits.before))
        self.frames = [
            sum(bit for bit, mask in self.people if mask >> g & 1) for g in range(task.instance.n)
        ]

    def steps(self, taken: int) -> dict[int, int]:
        rest = self.task.instance.everything & ~taken
        here = 0
        coming = dict.fromkeys(bits(rest), 0)
        for mask, weight in self.task.instance.classes.items():
            if not mask & taken:
                for g in bits(mask):
                    coming[g] += weight
            elif mask & rest:
                here += weight
        return {g: self.minutes[g] * (here + new) for g, new in coming.items()}

    def rest(self, taken: int, limit: int | None = None) -> int:
        """Those already here among themselves, in small parts first if that reaches `limit`."""
        if (low := self.known.get(taken)) is not None:
            return low
        own = sum([cost for mask, cost in self.own.items() if not mask & taken])
        here, gone = self.here(taken), ~taken
        self.budget.spend(15 + len(self.own) / 4)
        if limit is not None and len(self.parts) > 1:
            low = own
            for part in self.parts:
                if some := here & part:
                    low += self.few.least(some, self.few.union(some) & gone)
                if low >= limit:
                    return low
        if here.bit_count() <= FEW:
            low = own + (self.few.least(here, self.few.union(here) & gone) if here else 0)
        else:
            low = self.whole(taken).low
        self.known[taken] = low
        return low

    def here(self, taken: int) -> int:
        """People who came and still have something before them."""
        gone = ~taken
        return sum([bit for bit, mask in self.people if mask & taken and mask & gone])

    def settled(self, taken: int) -> bool:
        """Whether everybody has come."""
        return all(mask & taken for _, mask in self.people)

    def choice(self, taken: int) -> Iterable[int]:
        """Without rules and walks some photographs need no trial as the next one.

        A photograph of just those who are here comes next at no cost; and one within another,
        which holds nobody else but people who are here, comes after it.
        """
        if not self.free_choice:
            return self.task.allowed(taken)
        here, frames = self.here(taken), self.frames
        rest = list(bits(self.task.instance.everything & ~taken))
        for g in rest:
            if frames[g] == here:
                return (g,)
        return [g for g in rest if not self.later(frames[g], here, rest)]

    def later(self, frame: int, here: int, rest: list[int]) -> bool:
        outside = ~(frame | here)
        for g in rest:
            other = self.frames[g]
            if other & frame == frame != other and not other & outside:
                return True
        return False

    def whole(self, taken: int) -> Found:
        here: Classes = {}
        for mask, weight in self.task.instance.classes.items():
            if mask & taken and (rest := mask & ~taken):
                here[rest] = here.get(rest, 0) + weight
        own = sum(cost for mask, cost in self.own.items() if not mask & taken)
        here = without(self.sidney.closed(here), taken)
        found = self.sidney.solve(self.task.instance.everything & ~taken, here)
        return Found(found.low + own, found.value + own, found.order)
