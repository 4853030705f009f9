"""A good order quickly: move one photograph at a time, and shake when nothing helps."""

from __future__ import annotations

from random import Random

from planning.compute.order.budget import Budget
from planning.compute.order.search import Result
from planning.compute.order.task import Task


def settle(task: Task, order: tuple[int, ...], budget: Budget) -> tuple[int, tuple[int, ...]]:
    """Move single photographs to better places until no move helps or the work is used up."""
    best = task.cost(order)
    unit = 10 + 2 * len(order) + 2 * len(task.instance.classes)
    moved = True
    while moved:
        moved = False
        for g in order:
            without = tuple(other for other in order if other != g)
            for i in range(len(order)):
                trial = (*without[:i], g, *without[i:])
                if trial == order or not task.keeps(trial):
                    continue
                budget.spend(unit)
                if (cost := task.cost(trial)) < best:
                    best, order, moved = cost, trial, True
            if budget.over:
                return best, order
    return best, order


def shake(task: Task, found: Result, budget: Budget) -> Result:
    """Use the rest of the budget on shaken orders; the bound stays."""
    chance = Random(1)  # noqa: S311 - the same shakes every time are what we want
    low, value, order, _ = found
    n = len(order)
    while n > 2 and value > low and not budget.over:
        trial = list(order)
        for _ in range(chance.randint(2, 3)):
            g = trial.pop(chance.randrange(n))
            trial.insert(chance.randrange(n), g)
        budget.spend(20 * n)
        cost, settled = settle(task, task.repaired(trial), budget)
        if cost < value:
            value, order = cost, settled
    return found._replace(value=value, order=order)
