"""Conflicts told in one sum, worked by hand; random days judged by networkx."""

from random import Random

import networkx
import pytest

from planning.compute.network.conflicts import cycles, find_conflicts
from planning.compute.network.course import build_course
from planning.compute.network.network import Network
from planning.compute.network.statements import ORIGIN, build_network
from planning.compute.network.values import Post, Term
from planning.compute.values import Leg
from tests.compute.network.days import at, block, church_day, day


def conflicts(problem):
    return find_conflicts(build_course(problem))


def test_the_sum_of_the_notes_comes_out_as_told():
    """14:00 + 30 + 40 + 34 (25 on the map) = 15:44, and the meal is at 15:30."""
    (conflict,) = conflicts(church_day())
    assert conflict.first == Post("fixed", "ceremony", at("14:00"))
    assert conflict.terms == (
        Term("block", "ceremony", 30),
        Term("block", "groups", 40),
        Term("drive", "meal", 34, Leg("church", "venue", 25)),
    )
    assert conflict.last == Post("fixed", "meal", at("15:30"))
    assert conflict.short_by == 14


def test_fourteen_minutes_later_it_holds():
    assert not conflicts(church_day("15:44"))
    assert conflicts(church_day("15:43"))[0].short_by == 1


def test_two_fixed_times_the_wrong_way_round():
    a = block("a", 30, fixed="15:00")
    (conflict,) = conflicts(day(a, block("b", fixed="14:00", after=("a",))))
    assert conflict.short_by == 90


def test_two_fixed_times_at_once():
    (conflict,) = conflicts(day(block("a", 20, fixed="15:00"), block("b", fixed="15:00")))
    assert conflict.short_by == 20


def test_a_window_shorter_than_its_block():
    (conflict,) = conflicts(day(block("a", 30, window=("19:40", "20:00"))))
    assert conflict.short_by == 10
    assert conflict.first == Post("opens", "a", at("19:40"))
    assert conflict.terms == (Term("block", "a", 30),)
    assert conflict.last == Post("closes", "a", at("20:00"))


def test_a_fixed_time_outside_its_own_window():
    (early,) = conflicts(day(block("a", 30, fixed="10:00", window=("12:00", "13:00"))))
    assert early.first == Post("opens", "a", at("12:00"))
    assert (early.terms, early.last) == ((), Post("fixed", "a", at("10:00")))
    assert early.short_by == 120
    (late,) = conflicts(day(block("a", 30, fixed="12:40", window=("12:00", "13:00"))))
    assert late.short_by == 10


def test_more_than_the_day_before_the_first_fixed_time():
    (conflict,) = conflicts(day(block("a", 600), block("b", fixed="09:00")))
    assert conflict.short_by == 60
    assert conflict.first == Post("day", "a", 0)


def test_every_independent_conflict_is_told_and_no_sum_of_two():
    """15 short up to b, 20 short up to c; from a to c the sum of both is not told again."""
    problem = day(
        block("a", 45, fixed="10:00"),
        block("b", 50, fixed="10:30"),
        block("c", 10, fixed="11:00"),
        block("d", 30, window=("15:00", "15:20")),
        block("e", fixed="18:00"),
    )
    assert sorted(c.short_by for c in conflicts(problem)) == [10, 15, 20]


def random_day(seed):
    rng = Random(seed)  # noqa: S311 - seeded on purpose
    blocks, time = [], 9 * 60
    for i in range(rng.randint(2, 12)):
        minutes = rng.randint(5, 60)
        fields = {"place": rng.choice(["church", "venue"])}
        kind = rng.random()
        if kind < 0.35:
            fields["fixed"] = time + rng.randint(-20, 40)
        blocks.append(block(f"b{i}", minutes, after=(f"b{i - 1}",) if i else (), **fields))
        time += minutes + 10
    return day(*blocks, legs=[("church", "venue", rng.randint(3, 25))])


def holds(edges):
    graph = networkx.MultiDiGraph()
    graph.add_node(ORIGIN)
    graph.add_weighted_edges_from((e.a, e.b, e.weight) for e in edges)
    return not networkx.negative_edge_cycle(graph)


@pytest.mark.parametrize("chunk", range(4))
def test_every_told_conflict_breaks_without_any_one_of_its_statements(chunk):
    count = 0
    for seed in range(50 * chunk, 50 * chunk + 50):
        network = build_network(build_course(random_day(seed)))
        found = cycles(network)
        assert bool(found) != holds(network.edges)
        for cycle in found:
            count += 1
            assert not holds(cycle)
            for said in {edge.statement.source for edge in cycle}:
                assert holds([edge for edge in cycle if edge.statement.source != said])
    assert count > 10


@pytest.mark.parametrize("seed", range(200))
def test_the_parts_of_a_conflict_add_up(seed):
    for one in conflicts(random_day(seed)):
        assert one.first.at + sum(term.minutes for term in one.terms) - one.last.at == one.short_by


@pytest.mark.parametrize("seed", range(60))
def test_with_all_told_minutes_given_the_day_holds(seed):
    """Each conflict's longest step shortened by what is missing leaves no other conflict."""
    network = build_network(build_course(random_day(seed)))
    edges = list(network.edges)
    for cycle in cycles(network):
        missing = -sum(edge.weight for edge in cycle)
        step = min(cycle[1:-1], key=lambda edge: edge.weight)
        edges = [
            type(e)(e.a, e.b, e.weight + missing, e.statement)
            if e.statement == step.statement and e.weight < 0
            else e
            for e in edges
        ]
    assert holds(edges)
    assert not Network(ORIGIN, edges).negative_cycle()
