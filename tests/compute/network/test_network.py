"""The network against networkx 3.6.1, and against the published examples (tests/evidence)."""

from itertools import pairwise
from math import inf
from random import Random

import networkx
import pytest

from planning.compute.network.network import Network
from tests.compute.network.days import PUBLISHED


def random_network(seed):
    rng = Random(seed)  # noqa: S311 - seeded on purpose
    points = rng.randint(3, 12)
    hidden = [0] + [rng.randint(0, 300) for _ in range(points - 1)]
    network = Network(0)
    for _ in range(rng.randint(points, 4 * points)):
        a, b = rng.sample(range(points), 2)
        low = hidden[b] - hidden[a] - rng.randint(-2, 30)
        high = low + rng.randint(0, 60)
        network.say(a, b, low if rng.random() < 0.8 else -inf, high if rng.random() < 0.8 else inf)
    return network


def judge_of(network):
    graph = networkx.MultiDiGraph()
    graph.add_nodes_from(network.points)
    graph.add_weighted_edges_from((e.a, e.b, e.weight) for e in network.edges)
    return graph


def is_consistent(edges, points=()):
    graph = networkx.MultiDiGraph()
    graph.add_nodes_from(points)
    graph.add_weighted_edges_from((e.a, e.b, e.weight) for e in edges)
    return not networkx.negative_edge_cycle(graph)


@pytest.mark.parametrize("chunk", range(15))
def test_random_networks_agree_with_networkx(chunk):
    verdicts = set()
    for seed in range(100 * chunk, 100 * chunk + 100):
        network = random_network(seed)
        graph = judge_of(network)
        cycle = network.negative_cycle()
        verdicts.add(bool(cycle))
        assert bool(cycle) == networkx.negative_edge_cycle(graph)
        if cycle:
            check_cycle(network, cycle)
            continue
        latest = networkx.single_source_bellman_ford_path_length(graph, 0)
        assert network.latest() == {point: latest.get(point, inf) for point in network.points}
        early = networkx.single_source_bellman_ford_path_length(graph.reverse(), 0)
        assert network.earliest() == {point: -early.get(point, inf) for point in network.points}
    assert verdicts == {True, False}


def check_cycle(network, cycle):
    """Closed, simple, negative, and no conflict any more without any one of its edges."""
    assert all(edge in network.edges for edge in cycle)
    assert all(one.b == other.a for one, other in pairwise([*cycle, cycle[0]]))
    assert len({edge.a for edge in cycle}) == len(cycle)
    assert sum(edge.weight for edge in cycle) < 0
    assert not is_consistent(cycle)
    for i in range(len(cycle)):
        assert is_consistent(cycle[:i] + cycle[i + 1 :])


def told(constraints):
    network = Network("X0")
    for a, b, low, high in constraints:
        network.say(a, b, low, inf if high is None else high)
    return network


def test_john_and_fred_have_the_published_distances():
    entry = PUBLISHED["stn-john-fred-dgraph"]
    points = entry["inputs"]["points"]
    network = told(entry["inputs"]["constraints"])
    assert not network.negative_cycle()
    for point, row in zip(points, entry["outputs"]["d_graph"], strict=True):
        network.origin = point
        assert [network.latest()[other] for other in points] == row
    network.origin = "X0"
    for pair, (low, high) in entry["outputs"]["minimal"].items():
        network.origin, other = pair.split("-")
        assert (network.earliest()[other], network.latest()[other]) == (low, high)


@pytest.mark.parametrize("john", ["car", "bus"])
@pytest.mark.parametrize("fred", ["car", "carpool"])
def test_of_the_four_ways_to_travel_only_bus_and_carpool_fail(john, fred):
    entry = PUBLISHED["stn-john-fred-labelings"]
    ways = entry["inputs"]["choices"]
    changed = {("X1", "X2"): ways["John"][john], ("X3", "X4"): ways["Fred"][fred]}
    network = told(
        [a, b, *changed.get((a, b), (low, high))] for a, b, low, high in entry["inputs"]["base"]
    )
    cycle = network.negative_cycle()
    assert (not cycle) == entry["outputs"][f"{john}_{fred}"]
    if cycle:
        assert -sum(e.weight for e in cycle) == entry["outputs"]["bus_carpool_shortfall"]
    elif (john, fred) == ("bus", "car"):
        only = entry["outputs"]["bus_car_only_solution"]
        assert {point: network.earliest()[point] for point in only} == only
        assert {point: network.latest()[point] for point in only} == only


def test_two_statements_about_the_same_points_both_stay():
    network = Network("day")
    network.say("day", "meal", 60, source="kitchen")
    network.say("day", "meal", 0, 50, source="couple")
    network.say("day", "meal", 0, 90, source="hall")
    told = {edge.statement.source for edge in network.negative_cycle()}
    assert told == {"kitchen", "couple"}
