"""Starts the photographer chose; networkx says which of them are possible."""

from dataclasses import replace
from random import Random

import networkx
import pytest

from planning.compute.network.course import build_course
from planning.compute.network.solve import solve
from planning.compute.network.statements import ORIGIN, build_network, start
from tests.compute.network.days import at, block, church_day, day, full_day
from tests.compute.network.test_placement import random_day_with_others


def wishing(problem, **wished):
    blocks = (replace(b, wished=wished.get(b.key, b.wished)) for b in problem.blocks)
    return replace(problem, blocks=tuple(blocks))


def starts(problem):
    return {one.key: one.start for one in solve(problem, with_advice=False).planned}


def random_wishes(seed):
    rng = Random(seed)  # noqa: S311 - seeded on purpose
    problem = random_day_with_others(rng)
    free = starts(problem)
    wished = {
        b.key: max(0, (free[b.key] or 600) + rng.choice([-90, -20, -5, 0, 5, 20, 90]))
        for b in problem.blocks
        if rng.random() < 0.5
    }
    return wishing(problem, **wished)


def possible(edges):
    graph = networkx.MultiDiGraph()
    graph.add_node(ORIGIN)
    graph.add_weighted_edges_from(edges)
    return not networkx.negative_edge_cycle(graph)


def pin(key, minute):
    return [(ORIGIN, start(key), minute), (start(key), ORIGIN, -minute)]


@pytest.mark.parametrize("chunk", range(4))
def test_each_wish_is_met_or_the_nearest_start_that_is_possible(chunk):
    met = moved = 0
    for seed in range(20 * chunk, 20 * chunk + 20):
        problem = random_wishes(seed)
        found = starts(problem)
        if None in found.values():
            continue
        course = build_course(problem)
        edges = [(e.a, e.b, e.weight) for e in build_network(course).edges]
        others = [b for b in course.blocks if not b.photographer]
        for b in (*course.chain, *others):
            if b.wished is None:
                continue
            edges_with = edges + pin(b.key, found[b.key])
            assert possible(edges_with)
            if found[b.key] == b.wished:
                met += 1
            else:  # the possible starts have no gaps, so a minute nearer stands for all
                nearer = found[b.key] + (1 if b.wished > found[b.key] else -1)
                assert not possible(edges + pin(b.key, nearer))
                moved += 1
            edges = edges_with
    assert met > 5
    assert moved > 5


@pytest.mark.parametrize("chunk", range(4))
def test_with_wishes_all_statements_still_hold_and_no_conflict_is_new(chunk):
    for seed in range(30 * chunk, 30 * chunk + 30):
        problem = random_wishes(seed)
        plain = replace(problem, blocks=tuple(replace(b, wished=None) for b in problem.blocks))
        answer, before = (solve(one, with_advice=False) for one in (problem, plain))
        assert answer.conflicts == before.conflicts
        assert [p.key for p in answer.promises] == [p.key for p in before.promises]
        assert [(p.earliest, p.latest) for p in answer.planned] == [
            (p.earliest, p.latest) for p in before.planned
        ]
        if answer.conflicts:
            continue
        times = {"": {"day": 0}}
        times |= {one.key: {"start": one.start, "end": one.end} for one in answer.planned}
        for edge in build_network(build_course(problem)).edges:
            (a, a_side), (b, b_side) = edge.a, edge.b
            assert times[b][b_side] - times[a][a_side] <= edge.weight


def test_a_wish_by_hand():
    """Groups may start from 14:30 to 15:46, as the meal is at 17:00 and 34 minutes away."""
    problem = church_day("17:00")
    assert starts(wishing(problem, groups=at("15:10")))["groups"] == at("15:10")
    assert starts(wishing(problem, groups=at("16:30")))["groups"] == at("15:46")
    assert starts(wishing(problem, groups=at("09:00")))["groups"] == at("14:30")


def test_of_two_wishes_that_exclude_each_other_the_earlier_block_has_hers():
    problem = day(block("a", 30), block("b", 30), block("c", fixed="12:00"))
    found = starts(wishing(problem, a=at("10:30"), b=at("10:45")))
    assert (found["a"], found["b"]) == (at("10:30"), at("11:00"))


def test_a_wish_does_not_move_what_is_fixed_and_the_rest_goes_round_it():
    problem = full_day()
    found = starts(wishing(problem, ceremony=at("12:00"), details=at("16:20"), guests=at("15:00")))
    assert found["ceremony"] == at("13:30")
    assert found["guests"] == at("14:45")
    assert found["details"] == at("16:20")
    assert found["groups"] > starts(problem)["groups"]


def test_where_nothing_holds_a_block_any_wish_is_met():
    problem = day(block("a", (10, 20, 30)), block("b", (10, 20, 30)))
    assert starts(wishing(problem, b=at("26:00")))["b"] == at("26:00")
    assert starts(wishing(problem, a=at("26:00")))["b"] >= at("26:20")


def test_wishes_that_are_the_plan_change_nothing():
    problem = full_day()
    assert starts(wishing(problem, **starts(problem))) == starts(problem)
