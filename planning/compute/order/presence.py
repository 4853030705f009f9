"""Step costs of a set already taken, and lower bounds of the presence still to come."""

from __future__ import annotations

from planning.compute.order.budget import Budget
from planning.compute.order.gathered import Found, Gathered, without
from planning.compute.order.instance import Classes, bits
from planning.compute.order.task import Task


class Waiting:
    """Everybody waits from the start: the rest is solved exactly, apart from walks."""

    def __init__(self, task: Task, budget: Budget) -> None:
        self.task = task
        self.budget = budget
        self.minutes = task.instance.minutes
        self.sidney = Gathered(self.minutes, task.limits.before, budget)
        self.classes = self.sidney.closed(task.instance.classes)
        self.known: dict[int, int] = {}

    def steps(self, taken: int) -> dict[int, int]:
        """What each photograph costs as the next one."""
        rest = self.task.instance.everything & ~taken
        classes = self.task.instance.classes
        here = sum(weight for mask, weight in classes.items() if mask & rest)
        return {g: self.minutes[g] * here for g in bits(rest)}

    def rest(self, taken: int) -> int:
        """A lower bound of the presence that is still to come."""
        if (low := self.known.get(taken)) is None:
            low = self.known[taken] = self.whole(taken).low
        return low

    def whole(self, taken: int) -> Found:
        self.budget.spend(20 + len(self.classes))
        left = without(self.classes, taken)
        return self.sidney.solve(self.task.instance.everything & ~taken, left)


class Calling(Waiting):
    """First to last: those already here are the gathered problem, the others cost their own."""

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

    def whole(self, taken: int) -> Found:
        here: Classes = {}
        own = 0
        for mask, weight in self.task.instance.classes.items():
            if not mask & taken:
                own += weight * sum(self.minutes[g] for g in bits(mask))
            elif rest := mask & ~taken:
                here[rest] = here.get(rest, 0) + weight
        self.budget.spend(20 + len(self.task.instance.classes))
        here = without(self.sidney.closed(here), taken)
        found = self.sidney.solve(self.task.instance.everything & ~taken, here)
        return Found(found.low + own, found.value + own, found.order)
