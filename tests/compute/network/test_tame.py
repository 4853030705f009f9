from dataclasses import replace

import pytest

from planning.compute.network.course import build_course
from planning.compute.network.laws import Law
from planning.compute.network.simulate import promises, simulate
from planning.compute.network.solve import solve
from tests.compute.network.days import block, day, full_day


def test_the_only_block_that_varies_is_the_one_to_tame():
    """Kept on 1 - 10^2 / (25 x 20) of the days, a fifth less than all."""
    problem = day(
        block("a", 30, fixed="14:00"), block("b", (15, 20, 40)), block("c", fixed="15:00")
    )
    (best,) = solve(problem).tame
    assert (best.key, best.promise) == ("b", "c")
    assert best.gain == pytest.approx(0.2, abs=0.001)


def test_the_gain_is_that_of_the_same_plan_with_that_block_made_sure():
    problem = full_day()
    answer = solve(problem)
    assert answer.tame
    assert len(answer.tame) <= 3
    weakest = min(answer.promises, key=lambda one: one.chance)
    starts = {one.key: one.start for one in answer.planned}
    for one in answer.tame:
        blocks = tuple(
            replace(b, law=Law(b.law.likely, b.law.likely, b.law.likely)) if b.key == one.key else b
            for b in problem.blocks
        )
        course = build_course(replace(problem, blocks=blocks))
        days = simulate(course, starts, answer.leaving.at)
        chance = next(p.chance for p in promises(course, days) if p.key == weakest.key)
        assert one.promise == weakest.key
        assert abs(chance - weakest.chance - one.gain) < 1e-6


def test_nothing_is_told_where_nothing_varies_or_is_fixed():
    assert solve(day(block("a", 30, fixed="14:00"), block("b", fixed="15:00"))).tame == ()
    assert solve(day(block("a", (10, 20, 30)))).tame == ()
