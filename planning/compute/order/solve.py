"""The best order of a list of group photographs, with its certificate."""

from __future__ import annotations

from time import perf_counter

from planning.compute.order import evaluate, faults
from planning.compute.order.alike import merge
from planning.compute.order.budget import Budget
from planning.compute.order.check import check
from planning.compute.order.improve import settle, shake
from planning.compute.order.instance import compile_problem
from planning.compute.order.presence import Calling, Waiting
from planning.compute.order.rules import apart, keep
from planning.compute.order.search import Result, Search
from planning.compute.order.task import Task, as_task
from planning.compute.order.values import Answer, Fault, Problem

# Shares of the work: a first order, then the proof, and the rest to improve what is not proven.
FIRST, PROOF = 0.2, 0.8


def solve(problem: Problem) -> Answer:
    """The order that costs least under the rules; ProblemError when the list makes no sense.

    The same problem gives the same order on every machine unless `cut` is "clock".
    """
    budget = Budget(problem.seconds)
    check(problem)
    limits, found = keep(problem)
    small, limits, sets = merge(problem, limits)
    task = as_task(compile_problem(small), limits, apart(small))
    result = best(task, budget) if small.photographs else Result(0, 0, (), 0)
    order = tuple(problem.keys[g] for i in result.order for g in sets[i])
    return answer(problem, task, result, order, budget, found)


def best(task: Task, budget: Budget) -> Result:
    """Prove if it can be done in time; otherwise the best order found and what is known of it."""
    share = budget.share(PROOF)
    presence = (Calling if task.instance.called else Waiting)(task, share)
    wish = presence.whole(0)
    order = wish.order or ()
    if not task.jumps and not task.instance.called and task.keeps(order):
        found = Result(wish.low, wish.value, order, wish.low)
    else:
        value, order = start(task, order, budget)
        found = Search(task, presence, share).run(value, order)
    return shake(task, found, budget)


def start(task: Task, wish: tuple[int, ...], budget: Budget) -> tuple[int, tuple[int, ...]]:
    """A first order, from the best one without walks or from the list as it stands."""
    listed = tuple(range(task.instance.n))
    firsts = {task.repaired(order) for order in (wish, listed)}
    return min(settle(task, order, budget.share(FIRST / 2)) for order in sorted(firsts))


def answer(
    problem: Problem,
    task: Task,
    result: Result,
    order: tuple[str, ...],
    budget: Budget,
    found: list[Fault],
) -> Answer:
    proven = result.low >= result.value
    measured = evaluate.measure(problem, order)
    meetings = task.meetings(result.order)
    if meetings:
        found = found + faults.neighbours(problem, order, proven)
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
        cut="" if proven else budget.cut or "work",
        as_listed=evaluate.measure(problem, problem.keys),
        largest_first=evaluate.measure(problem, evaluate.largest_first(problem)),
        freed=evaluate.freed(problem, order),
        faults=tuple(found),
    )
