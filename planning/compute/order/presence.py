"""Step costs of a set already taken, and lower bounds of the presence still to come."""

from __future__ import annotations

from collections.abc import Iterable

from planning.compute.order.budget import Budget
from planning.compute.order.gathered import Found, Gathered, without
from planning.compute.order.instance import bits
from planning.compute.order.task import Task


class Waiting:
    """Everybody waits from the start: the rest is solved exactly, apart from walks."""

    def __init__(self, task: Task, budget: Budget) -> None:
        self.task = task
        self.budget = budget
        self.minutes = task.instance.minutes
        self.sidney = Gathered(self.minutes, task.limits.before, budget, task.instance.sizes)
        self.classes = self.sidney.closed(task.instance.classes)
        self.known: dict[int, int] = {}

    def steps(self, taken: int) -> dict[int, int]:
        """What each photograph costs as the next one."""
        rest = self.task.instance.everything & ~taken
        classes = self.task.instance.classes
        here = sum(weight for mask, weight in classes.items() if mask & rest)
        return {g: self.minutes[g] * here for g in bits(rest)}

    def choice(self, taken: int) -> Iterable[int]:
        """What has to be tried as the next one."""
        return self.task.allowed(taken)

    def rest(self, taken: int, limit: int | None = None) -> int:
        """A lower bound of the presence that is still to come; a quick one may reach `limit`."""
        if (low := self.known.get(taken)) is None:
            low = self.known[taken] = self.whole(taken).low
        return low

    def whole(self, taken: int) -> Found:
        self.budget.spend(20 + len(self.classes))
        left = without(self.classes, taken)
        return self.sidney.solve(self.task.instance.everything & ~taken, left)
