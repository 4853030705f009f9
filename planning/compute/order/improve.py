"""A good order quickly: slide one photograph at a time, and shake when nothing helps."""

from __future__ import annotations

from random import Random

from planning.compute.order.budget import Budget
from planning.compute.order.instance import bits
from planning.compute.order.search import Result
from planning.compute.order.sums import Sums
from planning.compute.order.task import Task

# Units of work for a first order, times the square of the number of photographs.
ENOUGH = 60


class Slides:
    """Costs of swapping neighbours: somebody is present from the first photograph with them (or
    from the start) to the last one."""

    def __init__(self, task: Task, budget: Budget) -> None:
        self.task = task
        self.budget = budget
        self.minutes = task.instance.minutes
        self.called = task.instance.called
        self.weights = Sums(list(task.instance.classes.values()))
        self.people = [0] * task.instance.n
        for i, mask in enumerate(task.instance.classes):
            for g in bits(mask):
                self.people[g] |= 1 << i

    def pair(self, came: int, one: int, other: int, due: int) -> int:
        """Presence in two neighbours, between those who came before and those due after."""
        first, second = self.people[one], self.people[other]
        later = second | due
        if self.called:
            early = (came | first) & (first | later)
            late = (came | first | second) & later
        else:
            early, late = first | later, later
        return self.minutes[one] * self.weights[early] + self.minutes[other] * self.weights[late]

    def swap(self, order: list[int], i: int, came: int, due: int) -> int:
        """What swapping i and i + 1 costs."""
        one, other = order[i], order[i + 1]
        change = self.pair(came, other, one, due) - self.pair(came, one, other, due)
        if self.task.jumps:
            jump = self.task.jump
            change += jump[other][one] - jump[one][other]
            if i:
                change += jump[order[i - 1]][other] - jump[order[i - 1]][one]
            if i + 2 < len(order):
                change += jump[one][order[i + 2]] - jump[other][order[i + 2]]
        return change

    def best_place(self, order: list[int], place: int) -> tuple[int, int]:
        """The change of the best slide of the photograph at `place`, and where to."""
        n = len(order)
        limits = self.task.limits
        came, due = [0] * (n + 1), [0] * (n + 1)
        for i, g in enumerate(order):
            came[i + 1] = came[i] | self.people[g]
        for i in range(n - 1, -1, -1):
            due[i] = due[i + 1] | self.people[order[i]]
        best = (0, place)
        self.budget.spend(5 + 4 * n)
        g = order[place]
        row, change, first = order[:], 0, came[place]
        for i in range(place, n - 1):
            if limits.after[g] >> row[i + 1] & 1:
                break
            change += self.swap(row, i, first, due[i + 2])
            row[i], row[i + 1] = row[i + 1], row[i]
            first |= self.people[row[i]]
            best = min(best, (change, i + 1))
        row, change, last = order[:], 0, due[place + 1]
        for i in range(place - 1, -1, -1):
            if limits.before[g] >> row[i] & 1:
                break
            change += self.swap(row, i, came[i], last)
            row[i], row[i + 1] = row[i + 1], row[i]
            last |= self.people[row[i + 1]]
            best = min(best, (change, i))
        return best

    def settle(self, order: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        """Slide single photographs to better places until none helps or the work is used up."""
        row = list(order)
        stuck = 0
        turn = 0
        while stuck < len(row) and not self.budget.over:
            g = order[turn % len(row)]
            turn += 1
            place = row.index(g)
            change, to = self.best_place(row, place)
            stuck += 1
            if change < 0:
                trial = row[:]
                trial.insert(to, trial.pop(place))
                if not self.task.limits.due or self.task.keeps(trial):
                    row, stuck = trial, 0
        return self.task.cost(row), tuple(row)


def shake(task: Task, found: Result, budget: Budget) -> Result:
    """Use the rest of the budget on shaken orders; the bound stays."""
    chance = Random(1)  # noqa: S311 - the same shakes every time are what we want
    slides = Slides(task, budget)
    low, value, order, _ = found
    n = len(order)
    while n > 2 and value > low and not budget.over:
        trial = list(order)
        if chance.randrange(2):
            i, j = sorted((chance.randrange(n), chance.randrange(n + 1)))
            trial[i:j] = reversed(trial[i:j])
        for _ in range(chance.randint(1, 3)):
            trial.insert(chance.randrange(n), trial.pop(chance.randrange(n)))
        budget.spend(20 * n)
        cost, settled = slides.settle(task.repaired(trial))
        if cost < value:
            value, order = cost, settled
    return found._replace(value=value, order=order)


def start(task: Task, wish: tuple[int, ...], budget: Budget) -> Result:
    """A first order, from a wish, the list as it stands and largest first, shaken a little."""
    sizes = task.instance.sizes
    listed = tuple(range(task.instance.n))
    by_size = tuple(sorted(listed, key=lambda g: -sizes[g]))
    budget.units = min(budget.units, ENOUGH * task.instance.n**2)
    slides = Slides(task, budget)
    firsts = sorted({task.repaired(order or listed) for order in (wish, listed, by_size)})
    value, order = min(slides.settle(order) for order in firsts)
    return shake(task, Result(0, value, order), budget)
