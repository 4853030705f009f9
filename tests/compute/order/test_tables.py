from dataclasses import replace
from importlib import import_module
from itertools import permutations
from random import Random

import pytest

from planning.bench.weddings import wedding
from planning.compute.order import solve
from planning.compute.order.budget import Budget
from planning.compute.order.instance import compile_problem
from planning.compute.order.rules import Limits
from planning.compute.order.tables import spans, tables
from planning.compute.order.task import as_task
from tests.compute.order.plain import best_by_trial, random_problem

solving = import_module("planning.compute.order.solve")


def free_list(seed, n):
    rng = Random(f"tables {seed}")  # noqa: S311 - seeded on purpose
    return replace(random_problem(rng, n), presence="called", rules=(), walk_price=0)


def least_after(task, taken):
    """What the rest costs at least, by trying every order of it after some order of `taken`."""
    n = task.instance.n
    before = [g for g in range(n) if taken >> g & 1]
    after = [g for g in range(n) if not taken >> g & 1]
    spent = sum_until(task, before)
    return min(task.cost((*before, *order)) - spent for order in permutations(after))


def sum_until(task, before):
    """Presence until the last of `before`, of those who stay as of those who leave."""
    now = came = 0
    arrived, total = {}, 0
    after = set(range(task.instance.n)) - set(before)
    for g in before:
        came, now = now, now + task.instance.minutes[g]
        for mask in task.instance.classes:
            if mask >> g & 1:
                arrived.setdefault(mask, came)
    for mask, weight in task.instance.classes.items():
        if mask in arrived:
            stays = any(mask >> g & 1 for g in after)
            last = now if stays else leaves(task, before, mask)
            total += weight * (last - arrived[mask])
    return total


def leaves(task, before, mask):
    now = gone = 0
    for g in before:
        now += task.instance.minutes[g]
        gone = now if mask >> g & 1 else gone
    return gone


@pytest.mark.parametrize("seed", range(8))
def test_one_table_for_the_whole_list_is_exact_whatever_is_taken(seed):
    instance = compile_problem(free_list(seed, 5))
    task = as_task(instance, Limits.none(instance.n), ())
    (table,) = tables(instance, instance.n, Budget(5))
    for taken in range(instance.everything):
        assert table.to_go(taken) == least_after(task, taken)


@pytest.mark.parametrize("size", [1, 2, 3, 4])
def test_tables_of_parts_add_up_to_no_more_than_the_truth(size):
    for seed in range(12):
        instance = compile_problem(free_list(seed, 6))
        task = as_task(instance, Limits.none(instance.n), ())
        parts = tables(instance, size, Budget(5))
        for taken in range(0, instance.everything, 5):
            assert sum(table.to_go(taken) for table in parts) <= least_after(task, taken)


@pytest.mark.parametrize("size", [1, 5, 9, 30])
@pytest.mark.parametrize("n", [1, 4, 5, 17, 30])
def test_every_photograph_is_counted_in_exactly_one_table(n, size):
    counted = [g for _, start, end in spans(n, size) for g in range(start, end)]
    assert counted == list(range(n))
    assert all(hold + end - start <= max(size, 1) for hold, start, end in spans(n, size))


@pytest.mark.parametrize("size", [1, 2, 3, 5])
def test_the_called_order_is_the_best_one_whatever_the_size_of_the_tables(monkeypatch, size):
    monkeypatch.setattr(solving, "TABLES", ((99, size),))
    for seed in range(40):
        rng = Random(f"size {seed}")  # noqa: S311 - seeded on purpose
        problem = replace(random_problem(rng, 6), presence="called")
        hard, _, least = best_by_trial(problem)
        answer = solve(problem)
        assert answer.proven
        assert hard or answer.measure.cost == pytest.approx(least)


def test_a_table_that_time_ran_out_on_bounds_nothing():
    instance = compile_problem(wedding(12, 1, presence="called"))
    budget = Budget(5)
    budget.be_late()
    assert {table.to_go(0) for table in tables(instance, 12, budget)} == {0}


def test_less_work_makes_smaller_tables():
    instance = compile_problem(wedding(20, 1, presence="called"))
    rows = [sum(len(t.left) for t in tables(instance, 17, Budget(s))) for s in (0.05, 0.5)]
    assert rows[0] < rows[1]


def test_small_and_large_tables_prove_the_same_cost(monkeypatch):
    for seed in range(3):
        problem = wedding(12, seed, presence="called", seconds=20)
        costs = set()
        for size in (4, 8, 12):
            monkeypatch.setattr(solving, "TABLES", ((99, size),))
            answer = solve(problem)
            assert answer.proven
            costs.add(answer.measure.cost)
        assert len(costs) == 1
