"""The best order of a list of group photographs, with its certificate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from time import perf_counter

from planning.compute.order import evaluate, faults
from planning.compute.order.alike import Sets, merge
from planning.compute.order.budget import Budget
from planning.compute.order.called import Calling
from planning.compute.order.check import check
from planning.compute.order.improve import shake, start
from planning.compute.order.instance import Instance, compile_problem
from planning.compute.order.presence import Waiting
from planning.compute.order.rules import Limits, Pairs, keep, named
from planning.compute.order.search import Result, Search
from planning.compute.order.tables import own_presence, tables, weightiest_first
from planning.compute.order.task import Task, as_task
from planning.compute.order.values import Answer, Fault, Problem

# Shares of the work: a first order, then the proof, and the rest to improve what is not proven.
FIRST, PROOF = 0.2, 0.75
# Photographs in a table for lists of up to so many, and for longer ones.
TABLES = ((22, 15), (10**9, 17))
QUICK = 10  # photographs in the tables that give a first bound, whatever becomes of larger ones
KEPT_BACK = 2.0  # measured: what comes after the search and a search's longest stride


def solve(problem: Problem) -> Answer:
    """The order that costs least under the rules; ProblemError when the list makes no sense.

    The same problem gives the same order on every machine unless `cut` is "clock".
    """
    budget = Budget(problem.seconds)
    check(problem)
    limits, pairs, found = keep(problem, budget)
    small, limits, sets = merge(problem, limits)
    instance = compile_problem(small)
    if instance.called:
        instance, limits, sets, pairs = sort(instance, limits, sets, pairs)
    task = as_task(instance, limits, pairs)
    budget.keep_back(KEPT_BACK)
    search = at_once if budget.over or not instance.n else best
    result = at_least(own(task), search(task, budget))
    order = tuple(problem.keys[g] for i in result.order for g in sets[i])
    return answer(problem, task, result, order, budget, found)


def sort(
    instance: Instance, limits: Limits, sets: Sets, pairs: Pairs
) -> tuple[Instance, Limits, Sets, Pairs]:
    """The weightiest photographs first, as tables.py wants them."""
    by_weight = weightiest_first(instance)

    @cache
    def moved(mask: int) -> int:
        text = f"{mask:0{instance.n}b}"[::-1]
        return int("0" + "".join([text[g] for g in by_weight])[::-1], 2)

    def picked(row: Sequence[int]) -> tuple[int, ...]:
        return tuple([row[g] for g in by_weight]) if row else ()

    sorted_limits = Limits(
        [moved(limits.before[g]) for g in by_weight],
        [moved(limits.after[g]) for g in by_weight],
        {k: moved(mask) for k, mask in limits.due.items()},
    )
    classes = {moved(mask): weight for mask, weight in instance.classes.items()}
    sorted_instance = replace(
        instance,
        minutes=picked(instance.minutes),
        classes=dict(sorted(classes.items(), key=lambda person: person[0] & -person[0])),
        frames=picked(instance.frames),
        sizes=picked(instance.sizes),
        walk=tuple(picked(instance.walk[g]) for g in by_weight),
    )
    sorted_pairs = [(moved(one), moved(other)) for one, other in pairs]
    return sorted_instance, sorted_limits, [sets[g] for g in by_weight], sorted_pairs


def at_once(task: Task, _: Budget) -> Result:
    """No time for a search: largest first as far as the rules let it."""
    sizes = task.instance.sizes
    order = task.repaired(sorted(range(task.instance.n), key=lambda g: -sizes[g]))
    return Result(0, task.cost(order), order)


def own(task: Task) -> int:
    """What everybody's own photographs take, in whatever order."""
    return sum(own_presence(task.instance))


def at_least(low: int, found: Result) -> Result:
    return found._replace(low=max(found.low, low), floor=max(found.floor, low))


def best(task: Task, budget: Budget) -> Result:
    """Prove if it can be done in time; otherwise the best order found and what is known of it."""
    share = budget.share(PROOF, PROOF)
    found = called(task, share) if task.instance.called else gathered(task, share)
    late = share.late
    found = shake(task, found, budget)
    budget.late |= late
    return found


def called(task: Task, share: Budget) -> Result:
    """A first order, tables as large as do for a list of that length, and the search."""
    found = start(task, (), share.share(FIRST))
    size = next(size for longest, size in TABLES if task.instance.n <= longest)
    small = tables(task.instance, QUICK, share)
    found = at_least(sum(table.to_go(0) for table in small), found)
    large = tables(task.instance, size, share)
    presence = Calling(task, share, large)
    presence.face(found.order)
    return at_least(found.low, Search(task, presence, share).run(found.value, found.order))


def gathered(task: Task, share: Budget) -> Result:
    """Without walks and deadlines the decomposition is all it takes."""
    presence = Waiting(task, share)
    wish = presence.whole(0)
    order = wish.order or ()
    if not task.jumps and task.keeps(order):
        return Result(wish.low, wish.value, order, wish.low)
    first = start(task, order, share.share(FIRST))
    return Search(task, presence, share).run(first.value, first.order)


def answer(
    problem: Problem,
    task: Task,
    result: Result,
    order: tuple[str, ...],
    budget: Budget,
    found: list[Fault],
) -> Answer:
    proven = result.low >= result.value
    costs = evaluate.Costs(problem)
    measured = costs.measure(order)
    meetings = task.meetings(result.order)
    if meetings:
        places = evaluate.positions(problem, order, set(named(problem.rules)))
        found = found + faults.neighbours(problem, order, places, proven)
    # A bound that lies below these meetings says nothing of what the minutes must cost.
    low = max(result.low - task.penalty * meetings, result.floor)
    bound = measured.cost - (result.value - task.penalty * meetings - low) / task.instance.unit
    gap = 0.0 if proven else measured.cost / bound - 1 if bound > 0 else None
    return Answer(
        order=order,
        measure=measured,
        bound=measured.cost if proven else bound,
        proven=proven,
        gap=gap,
        seconds=perf_counter() - budget.started,
        cut="" if proven else budget.cut,
        as_listed=costs.measure(problem.keys),
        largest_first=costs.measure(evaluate.largest_first(problem)),
        freed=evaluate.freed(problem, order),
        faults=tuple(found),
    )
