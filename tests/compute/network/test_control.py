from planning.compute.network.control import in_the_worst_case
from planning.compute.network.network import Network
from tests.compute.network.days import PUBLISHED


def worst(contingent, requirement):
    (a, b, least, most), (x, y, low, high) = contingent, requirement
    network = Network(a)
    network.say(x, y, low, high)
    return in_the_worst_case(network, {b: (a, least, most)})


def test_the_published_example_leaves_its_interval():
    entry = PUBLISHED["stnu-morris-1"]
    network = worst(entry["inputs"]["contingent"][0], entry["inputs"]["requirement"][0])
    assert not network.negative_cycle()
    assert [network.earliest()["C"], network.latest()["C"]] == entry["outputs"]["C_minus_A"]


def test_a_narrower_requirement_leaves_one_moment():
    """B is 0 to 1 after A, C must be 1 to 2 after B: C exactly 2 after A (worked by hand)."""
    network = worst(["A", "B", 0, 1], ["B", "C", 1, 2])
    assert (network.earliest()["C"], network.latest()["C"]) == (2, 2)


def test_what_lasts_too_variously_cannot_be_promised():
    assert worst(["A", "B", 0, 3], ["B", "C", 1, 2]).negative_cycle()
