import json

import pytest
from django.core.management import call_command

from planning.bench.groups import as_line, measured, with_rules, works
from planning.bench.peer import cp_model, solve_with_peer
from planning.bench.weddings import wedding
from planning.compute.order import solve
from tests.compute.order.plain import broken


def test_an_invented_wedding_is_the_same_every_time():
    assert wedding(20, 4) == wedding(20, 4) != wedding(20, 5)
    assert len(wedding(60, 1).photographs) == 60


@pytest.mark.parametrize("seed", range(4))
def test_the_rules_of_the_bench_can_all_be_kept(seed):
    problem = with_rules(10, seed, seconds=60)
    answer = solve(problem)
    assert broken(problem, answer.order) == (0, 0)
    assert not answer.faults


def test_a_row_tells_what_was_measured():
    work = next(work for work in works(3, 60) if "gathered, 8" in work.title)
    row = measured(work, 0)
    assert (row["lists"], row["proven"], row["goal"]) == (3, 3, 0.005)
    assert 0 < row["median"] <= row["worst"]
    assert as_line(row).startswith("gathered, 8 groups")


def test_the_command_prints_one_json_object(capsys):
    call_command("bench", "--only", "Rehearsal", "--peer-seconds", "0", "--json")
    (row,) = json.loads(capsys.readouterr().out)["group_order"]
    assert row["first_cost"] == 109
    assert row["proven"] == 1


@pytest.mark.large
@pytest.mark.skipif(cp_model is None, reason="OR-tools is not installed: uv sync --group bench")
@pytest.mark.parametrize("presence", ["gathered", "called"])
@pytest.mark.parametrize("price", [0, 0.2])
@pytest.mark.parametrize("groups", [8, 10])
def test_an_independent_solver_proves_the_same_cost(presence, price, groups):
    """OR-tools CP-SAT 9.15, linear-ordering model."""
    problem = wedding(groups, 1, presence=presence, walk_price=price, seconds=60)
    peer = solve_with_peer(problem, 100, 2)
    assert peer.proven
    assert solve(problem).measure.cost == pytest.approx(peer.cost)
