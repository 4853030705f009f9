"""Published talent-scheduling lists with their optima; sources stand in the file, one by one."""

import json
from pathlib import Path

import pytest

from planning.compute.order import Photograph, Problem, measure, solve

EVIDENCE = Path(__file__).parents[2] / "evidence" / "group-order.json"
INSTANCES = json.loads(EVIDENCE.read_text())["instances"]


def problem_of(instance, seconds=120.0):
    """Pieces as photographs, actors as people, pay as weight."""
    rows = {f"p{p}": row for p, row in enumerate(instance["rows"]) if "1" in row}
    photographs = tuple(
        Photograph(
            str(g + 1), tuple(p for p, row in rows.items() if row[g] == "1"), minutes=duration
        )
        for g, duration in enumerate(instance["durations"])
    )
    weights = {f"p{p}": w for p, w in enumerate(instance["weights"]) if f"p{p}" in rows}
    return Problem(photographs, "called", seconds=seconds, weights=weights)


@pytest.mark.parametrize("instance", INSTANCES, ids=[one["name"] for one in INSTANCES])
def test_published_lists_are_proven_at_their_optimum(instance):
    answer = solve(problem_of(instance))
    assert answer.proven
    assert answer.measure.cost == instance["optimum_total"]
    assert answer.measure.waiting_minutes == instance["optimum_waiting"]


@pytest.mark.parametrize("instance", INSTANCES, ids=[one["name"] for one in INSTANCES])
def test_published_orders_cost_what_is_published(instance):
    order = [str(g) for g in instance["an_optimal_order_1based"]]
    assert measure(problem_of(instance), order).cost == instance["optimum_total"]
