"""OR-tools CP-SAT on the same placement: the same tables of whole numbers, as element constraints
or, since every value falls off ever faster, as the lines that lie on top of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from time import process_time
from typing import Any

from planning.bench.peer import cp_model
from planning.compute.network.placement import IDLE, Step, highs


@dataclass(frozen=True, slots=True)
class Placed:
    seconds: float
    proven: bool
    value: int | None


def place_with_peer(
    steps: Sequence[Step], seconds: float, workers: int, lines: bool = True
) -> Placed | None:
    """What CP-SAT proves in that time, building the model counted in; None without OR-tools."""
    if cp_model is None:
        return None
    started = process_time()
    model = placement_model(steps, lines)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    status = solver.solve(model)
    solved = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    value = round(solver.objective_value) if solved else None
    return Placed(process_time() - started, status == cp_model.OPTIMAL, value)


def placement_model(steps: Sequence[Step], lines: bool) -> Any:
    model = cp_model.CpModel()
    tops = highs(steps)
    starts = [model.new_int_var(step.low, top, "") for step, top in zip(steps, tops, strict=True)]
    value = []
    for i, step in enumerate(steps):
        if step.closes is not None:
            room = step.closes - step.minutes
            most = room - step.low
            value.append(worth(model, room - starts[i], most, step.room, 0, lines))
        if i:
            lead = steps[i - 1].minutes + step.lead
            most = tops[i] - steps[i - 1].low - lead
            gap = starts[i] - starts[i - 1] - lead
            value.append(worth(model, gap, most, step.gains, IDLE, lines))
    model.maximize(sum(value))
    return model


def worth(model: Any, minutes: Any, most: int, gains: Sequence[int], idle: int, lines: bool) -> Any:
    """A variable that is worth what the table says for these minutes (0 to `most`)."""
    slopes = [(gains[k] if k < len(gains) else 0) - idle for k in range(most)]
    table = [0, *accumulate(slopes)]
    value = model.new_int_var(min(table), max(table), "")
    at = model.new_int_var(0, most, "")
    model.add(at == minutes)
    if not lines:
        model.add_element(at, table, value)
        return value
    first = {slope: k for k, slope in reversed(list(enumerate(slopes)))}
    for slope, k in first.items():
        model.add(value <= table[k] + slope * (at - k))
    if not slopes:
        model.add(value == 0)
    return value
