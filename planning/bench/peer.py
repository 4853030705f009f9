"""OR-tools CP-SAT on the same list: the linear-ordering model, in the best form we tried.

A boolean for each pair says which photograph comes first, triangles keep them an order, and a
circuit prices the walks. It starts from largest first.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from time import perf_counter
from typing import Any

from planning.compute.order import Problem, largest_first
from planning.compute.order.instance import Instance, bits, compile_problem

try:
    from ortools.sat.python import cp_model
except ImportError:
    cp_model = None


@dataclass(frozen=True, slots=True)
class PeerResult:
    """`cost` in guest-minutes, None without a solution."""

    seconds: float
    proven: bool
    cost: float | None
    bound: float


def solve_with_peer(problem: Problem, seconds: float, workers: int) -> PeerResult | None:
    """What CP-SAT proves in that time; None where it is not installed."""
    if cp_model is None:
        return None
    started = perf_counter()
    instance = compile_problem(problem)
    keys = {key: g for g, key in enumerate(problem.keys)}
    model = ordering_model(instance, [keys[key] for key in largest_first(problem)])
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    status = solver.solve(model)
    solved = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return PeerResult(
        perf_counter() - started,
        status == cp_model.OPTIMAL,
        solver.objective_value / instance.unit if solved else None,
        solver.best_objective_bound / instance.unit,
    )


def ordering_model(instance: Instance, hint: list[int]) -> Any:
    model = cp_model.CpModel()
    n = instance.n
    place = {g: i for i, g in enumerate(hint)}
    first: dict[tuple[int, int], Any] = {}
    for f, g in combinations(range(n), 2):
        first[f, g] = model.new_bool_var("")
        first[g, f] = first[f, g].negated()
        model.add_hint(first[f, g], place[f] < place[g])
    for f, g, h in combinations(range(n), 3):
        model.add_bool_or(first[g, f], first[h, g], first[f, h])
        model.add_bool_or(first[f, g], first[g, h], first[h, f])
    present = called if instance.called else gathered
    cost = present(model, instance, first)
    if instance.price:
        cost += walks(model, instance, first)
    model.minimize(sum(cost))
    return model


def gathered(model: Any, instance: Instance, first: dict[tuple[int, int], Any]) -> list[Any]:
    """Weight x the end of the last photograph of each class."""
    n, cost = instance.n, []
    for mask, weight in instance.classes.items():
        leave = model.new_int_var(0, sum(instance.minutes), "")
        for g in bits(mask):
            before = [instance.minutes[f] * first[f, g] for f in range(n) if f != g]
            model.add(leave >= sum(before) + instance.minutes[g])
        cost.append(weight * leave)
    return cost


def called(model: Any, instance: Instance, first: dict[tuple[int, int], Any]) -> list[Any]:
    """A class waits in a photograph of others when it has one before and one after."""
    cost: list[Any] = []
    for mask, weight in instance.classes.items():
        cost.append(weight * sum(instance.minutes[g] for g in bits(mask)))
        if not mask & (mask - 1):
            continue
        for g in bits(instance.everything & ~mask):
            came, stays, waits = (model.new_bool_var("") for _ in range(3))
            for f in bits(mask):
                model.add_implication(first[f, g], came)
                model.add_implication(first[g, f], stays)
            model.add_bool_or(came.negated(), stays.negated(), waits)
            cost.append(weight * instance.minutes[g] * waits)
    return cost


def walks(model: Any, instance: Instance, first: dict[tuple[int, int], Any]) -> list[Any]:
    """Priced arcs of a circuit through all photographs and a start that costs nothing."""
    n = instance.n
    position = [sum(first[f, g] for f in range(n) if f != g) for g in range(n)]
    arcs, cost = [], []
    for f in range(n):
        arcs += [(n, f, model.new_bool_var("")), (f, n, model.new_bool_var(""))]
        for g in range(n):
            if f != g:
                arc = model.new_bool_var("")
                arcs.append((f, g, arc))
                model.add(position[g] == position[f] + 1).only_enforce_if(arc)
                cost.append(instance.price * instance.walk[f][g] * arc)
    model.add_circuit(arcs)
    return cost
