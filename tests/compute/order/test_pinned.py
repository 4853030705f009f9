"""Small lists that once told a sound bound from one that is not (random lists of a review)."""

from dataclasses import replace
from random import Random

import pytest

from planning.compute.order import Apart, Before, Last, Photograph, Problem, budget, solve

from .plain import best_by_trial, random_problem
from .test_solve import agrees_with_trial

LISTS = [
    Problem(
        (
            Photograph("g0", ("n1", "n4"), extra=5, minutes=0.3333333333333333),
            Photograph("g1", ("n1", "n3", "n4", "n5"), extra=5, minutes=1),
            Photograph("g2", ("n1", "n2", "n3", "n5", "n6"), minutes=0.3333333333333333),
            Photograph("g3", (), minutes=7),
            Photograph("g4", ("n0", "n2", "n4", "n5")),
            Photograph("g5", ("n0", "n1"), extra=1, minutes=0.3333333333333333),
            Photograph("g6", ("n1", "n2", "n3", "n4", "n5"), minutes=0.3),
        ),
        presence="called",
        walk_price=3.3,
        weights={"n0": 4.75, "n2": 0.3333333333333333, "n3": 0.5, "n4": 4.75},
        rules=(Last(group="g5"), Apart(one="n2", other="n5"), Before(one="g1", other="g6")),
    ),
    Problem(
        (
            Photograph("g0", ("n0", "n3", "n6")),
            Photograph("g1", ("n1", "n3", "n6"), extra=5, minutes=1),
            Photograph("g2", ("n1", "n3", "n6")),
            Photograph("g3", ("n6",), extra=1, minutes=1),
            Photograph("g4", ("n6",), minutes=0.3333333333333333),
            Photograph("g5", ("n0", "n2", "n3", "n5", "n6"), minutes=2),
            Photograph("g6", ("n0", "n2", "n3", "n6"), extra=2, minutes=3.14159),
        ),
        presence="called",
        walk_price=0.05,
        weights={"n0": 0.5, "n1": 0.1, "n2": 0, "n6": 1},
        rules=(Before(one="g5", other="g6"), Apart(one="n0", other="n5")),
    ),
    Problem(
        (
            Photograph("g0", ("n0",), minutes=1),
            Photograph("g1", ("n0",), extra=5, minutes=1),
            Photograph("g2", ("n0", "n1", "n2", "n3"), minutes=0.3),
            Photograph("g3", (), extra=2),
            Photograph("g4", ("n2", "n3"), extra=5, minutes=0.3),
            Photograph("g5", ("n2", "n3")),
            Photograph("g6", ("n1",), extra=5, minutes=3.14159),
        ),
        presence="gathered",
        walk_price=3.3,
        weights={"n1": 0, "n2": 3, "n3": 0},
        rules=(Apart(one="n1", other="n3"),),
    ),
    Problem(
        (
            Photograph("g0", (), extra=5, minutes=7),
            Photograph("g1", (), extra=5, minutes=2.5),
            Photograph("g2", ("n1", "n2"), extra=1),
            Photograph("g3", ("n0", "n2"), minutes=2),
            Photograph("g4", ("n0", "n1", "n2"), extra=5, minutes=3.14159),
            Photograph("g5", ("n1",), extra=2, minutes=7),
            Photograph("g6", ("n1", "n2"), extra=1, minutes=0.3),
        ),
        presence="gathered",
        walk_price=25,
        weights={"n0": 0.5},
        rules=(Apart(one="n1", other="n0"),),
    ),
]


@pytest.mark.parametrize("problem", LISTS)
def test_these_lists_agree_with_trying_every_order(problem):
    agrees_with_trial(problem)


@pytest.mark.parametrize("units", [300, 1000, 3000])
def test_a_cut_search_tells_no_bound_above_the_truth_though_people_meet(monkeypatch, units):
    monkeypatch.setattr(budget, "UNITS_A_SECOND", units)
    seen = 0
    for seed in range(150):
        rng = Random(f"meet {seed}")  # noqa: S311 - seeded on purpose
        problem = random_problem(rng, 6)
        people = sorted({person for p in problem.photographs for person in p.people})
        if len(people) < 2:
            continue
        apart = tuple(Apart(*rng.sample(people, 2)) for _ in range(3))
        problem = replace(problem, rules=tuple(dict.fromkeys(apart)), seconds=1)
        answer = solve(problem)
        _, _, least = best_by_trial(problem)
        seen += not answer.proven
        assert answer.bound <= least + 1e-6
    assert seen > 5
