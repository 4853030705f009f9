"""Bounds for the called order from the same list with fewer photographs, one within the other.

Leaving a photograph out saves at least the minutes of those in it, so the best order of the
weightiest photographs, plus what the others take by themselves, bounds the whole list; solved
from small to large, each list guides the next (Russian dolls; Verfaillie and others 1996).
"""

from __future__ import annotations

from dataclasses import replace

from planning.compute.order.budget import Budget
from planning.compute.order.called import FEW, Calling
from planning.compute.order.instance import Instance, bits
from planning.compute.order.rules import Limits
from planning.compute.order.task import Task, as_task

SMALLEST, STEP = 9, 2


def weightiest_first(instance: Instance) -> list[int]:
    """Numbers of the photographs by minutes x weight of the people in it, most first."""
    pull = [0] * instance.n
    for mask, weight in instance.classes.items():
        for g in bits(mask):
            pull[g] += weight * instance.minutes[g]
    return sorted(range(instance.n), key=lambda g: (-pull[g], g))


class Doll(Calling):
    """The list of the first photographs of a larger one, without its rules and walks."""

    def __init__(self, task: Task, budget: Budget, inner: Doll | None = None) -> None:
        super().__init__(task, budget)
        self.inner = inner
        self.exact: dict[int, int] = {}
        self.seen: dict[int, int] = {}
        size = inner.task.instance.n if inner else task.instance.n
        self.core = (1 << size) - 1
        self.light = [0] * task.instance.n
        for mask, weight in task.instance.classes.items():
            for g in bits(mask & ~self.core):
                self.light[g] += weight * self.minutes[g]

    def rest(self, taken: int, limit: int | None = None) -> int:
        if (low := self.seen.get(taken)) is not None:
            return low
        low = super().rest(taken, limit)
        if self.inner and (limit is None or low < limit):
            left = self.task.instance.everything & ~self.core & ~taken
            light = sum([self.light[g] for g in bits(left)])
            low = max(low, light + self.inner.to_go(taken & self.core))
            if taken in self.known:
                self.seen[taken] = low
        return low

    def to_go(self, taken: int) -> int:
        """The least presence still to come once these are taken; less when time is up."""
        if (best := self.exact.get(taken)) is not None:
            return best
        if self.settled(taken) or self.budget.over:
            return self.rest(taken)
        steps = self.steps(taken)
        self.budget.spend(20 + 2 * len(steps))
        children = sorted((steps[g] + self.rest(taken | 1 << g), g) for g in self.choice(taken))
        best = None
        for low, g in children:
            if self.budget.over:
                return self.rest(taken)
            if best is not None and low >= best:
                break
            cost = steps[g] + self.to_go(taken | 1 << g)
            best = cost if best is None else min(best, cost)
        if self.budget.over:
            return self.rest(taken)
        self.exact[taken] = best or 0
        return best or 0


def first(instance: Instance, n: int) -> Instance:
    """The first n photographs by themselves."""
    part = (1 << n) - 1
    classes: dict[int, int] = {}
    for mask, weight in instance.classes.items():
        if some := mask & part:
            classes[some] = classes.get(some, 0) + weight
    return replace(
        instance,
        minutes=instance.minutes[:n],
        classes=classes,
        frames=instance.frames[:n],
        sizes=instance.sizes[:n],
        walk=tuple(row[:n] for row in instance.walk[:n]),
        price=0,
    )


def nest(task: Task, share: Budget, budget: Budget) -> Doll:
    """The whole list around the largest list that could be solved with a share of the work."""
    inner: Doll | None = None
    if len(Calling(task, budget).people) <= FEW:
        return Doll(task, budget)
    for n in range(SMALLEST, task.instance.n, STEP):
        small = as_task(first(task.instance, n), Limits.none(n), ())
        doll = Doll(small, share, inner)
        doll.to_go(0)
        if share.over:
            break
        doll.budget = doll.sidney.budget = doll.few.budget = budget
        inner = doll
    return Doll(task, budget, inner)
