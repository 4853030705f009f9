"""Suggested times, with their lateness counted anew day by day."""

from dataclasses import replace
from math import fsum
from random import Random

import pytest

from planning.compute.network.course import build_course
from planning.compute.network.draws import DAYS, minutes
from planning.compute.network.laws import drive_law
from planning.compute.network.solve import solve
from planning.compute.network.statements import build_network
from planning.compute.network.suggest import suggest
from tests.compute.network.days import at, block, church_day, day, full_day, wrong_with
from tests.compute.network.test_placement import random_day_with_others


def placed(problem):
    return {one.key: one.start for one in solve(problem, with_advice=False).planned}


def recounted(problem, starts, leave):
    """Weighted lateness and the days each fixed time is kept on; only for days of hers alone."""
    course = build_course(problem)
    late, kept = [], dict.fromkeys((b.key for b in problem.blocks if b.fixed is not None), 0)
    for number in range(DAYS):
        now = leave
        for b, leg in zip(course.chain, course.legs, strict=True):
            if leg:
                now += minutes(f"drive {b.key}", drive_law(leg.map_minutes))[number]
            weight = b.importance / 10 * (5 if b.fixed is not None else 1)
            late.append(weight * max(0, now - starts[b.key]))
            if b.fixed is not None:
                kept[b.key] += now <= b.fixed
            delay = minutes(f"delay {b.key}", b.start_delay)[number] if b.start_delay else 0
            now = max(now, starts[b.key] + delay) + minutes(f"block {b.key}", b.law)[number]
            if b.window:
                late.append(weight * max(0, now - b.window[1]))
    return fsum(late) / DAYS, kept


def hers(problem):
    return replace(problem, blocks=tuple(b for b in problem.blocks if b.photographer))


@pytest.mark.parametrize("wanted", [0.5, 0.9])
def test_it_is_less_late_than_the_placement_and_keeps_its_promises(wanted):
    problem = hers(full_day(wanted=wanted))
    found = suggest(problem)
    assert not wrong_with(problem, found)
    answer = solve(problem, with_advice=False)
    ahead = answer.planned[0].start - answer.leaving.at
    late, kept = recounted(problem, found, found["setup"] - ahead)
    before, kept_before = recounted(problem, placed(problem), answer.leaving.at)
    assert late < 0.9 * before
    for key, count in kept_before.items():
        assert kept[key] >= min(count, wanted * DAYS)


@pytest.mark.parametrize("chunk", range(4))
def test_every_statement_holds(chunk):
    for seed in range(8 * chunk, 8 * chunk + 8):
        problem = random_day_with_others(Random(seed))  # noqa: S311 - seeded on purpose
        found = suggest(problem)
        if not found:
            assert solve(problem, with_advice=False).conflicts
            continue
        times = {"": {"day": 0}}
        for b in problem.blocks:
            times[b.key] = {"start": found[b.key], "end": found[b.key] + b.law.likely}
        for edge in build_network(build_course(problem)).edges:
            (a, a_side), (b, b_side) = edge.a, edge.b
            assert times[b][b_side] - times[a][a_side] <= edge.weight


def test_what_is_fixed_stays_and_wishes_are_not_asked():
    problem = full_day()
    found = suggest(problem)
    assert all(found[b.key] == b.fixed for b in problem.blocks if b.fixed is not None)
    blocks = tuple(replace(b, wished=at("17:00")) for b in problem.blocks)
    assert suggest(replace(problem, blocks=blocks)) == found


def test_where_nothing_varies_the_placement_is_suggested():
    problem = day(block("a", 30, fixed="10:00"), block("b", 20), block("c", fixed="12:00"))
    assert suggest(problem) == placed(problem)


def test_a_day_that_does_not_hold_has_no_times_to_suggest():
    assert suggest(church_day()) == {}


def test_a_day_without_blocks_of_hers():
    problem = day(block("a", 30, photographer=False, fixed="12:00"))
    assert suggest(problem) == {"a": at("12:00")}


def test_a_wish_that_is_kept_stays_where_the_day_allows():
    problem = day(block("a", 30, fixed="10:00"), block("b", 20), block("c", fixed="12:00"))
    blocks = tuple(replace(b, wished=at("11:11")) if b.key == "b" else b for b in problem.blocks)
    wished = replace(problem, blocks=blocks)
    assert suggest(wished, kept={"b"})["b"] == at("11:11")
    assert suggest(wished)["b"] != at("11:11")
