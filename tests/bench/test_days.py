import pytest

from planning.bench.days import as_line, broken, invented_day, measured, works
from planning.bench.peer import cp_model
from planning.bench.placement_peer import place_with_peer
from planning.compute.network import solve
from planning.compute.network.course import build_course
from planning.compute.network.placement import best_starts, build_steps, total
from planning.compute.network.statements import bounds, build_network


def test_an_invented_day_is_the_same_every_time_and_holds():
    assert invented_day(16, 4) == invented_day(16, 4) != invented_day(16, 5)
    for count, problems in works(3):
        for problem in problems:
            assert len(problem.blocks) == count
            assert not solve(problem, with_advice=False).conflicts
            assert solve(broken(problem), with_advice=False).conflicts


def test_a_row_tells_what_was_measured():
    row = measured(16, [invented_day(16, 0)], 0)
    assert 0 < row["median"] <= row["worst"]
    assert row["goal"] == 0.015
    assert as_line(row).startswith("timeline edit, 16 blocks")


@pytest.mark.skipif(cp_model is None, reason="OR-tools is not installed: uv sync --group bench")
@pytest.mark.parametrize("lines", [True, False])
@pytest.mark.parametrize("count", [8, 16])
def test_an_independent_solver_finds_the_same_value(count, lines):
    """OR-tools CP-SAT 9.15, with the same tables of whole numbers."""
    course = build_course(invented_day(count, 2))
    held = {key: (low, high) for key, low, high in bounds(build_network(course), course)}
    steps = build_steps(course, held)
    peer = place_with_peer(steps, 60, 1, lines)
    assert peer.proven
    assert peer.value == total(steps, best_starts(steps))
