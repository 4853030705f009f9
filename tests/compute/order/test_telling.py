import re

from planning.bench.weddings import wedding
from planning.compute.order import Before, First, Last, Photograph, Problem, solve
from planning.compute.order.telling import tell, verdict


def listed(*rules, **options):
    """Largest first is best: big frees two people after 4 minutes."""
    photographs = (
        Photograph("small", ("A",), minutes=4),
        Photograph("big", ("B", "C"), minutes=4),
    )
    problem = Problem(photographs, rules=rules, **options)
    return problem, solve(problem)


def test_the_best_order_of_all_says_so():
    assert verdict(*listed()) == "proven best order"


def test_the_best_order_under_rules_names_them():
    assert verdict(*listed(First("small"))) == "proven best order that keeps your rules"
    assert verdict(*listed(largest_first=True)) == "proven best order that keeps your rules"


def test_rules_that_cannot_all_be_kept_are_not_called_kept():
    clash = listed(First("small"), Last("small"))
    assert verdict(*clash) == "proven best order that keeps as many of your rules as it can"


def test_an_order_that_is_not_proven_says_what_it_is_near():
    problem = wedding(40, 2, presence="called", seconds=0.01)
    told = verdict(problem, solve(problem))
    assert re.fullmatch(r"within \d+\.\d % of the best order", told)


def test_a_cheaper_order_is_told_to_be_against_the_rules():
    lines = tell(*listed(Before("small", "big"))).splitlines()
    assert lines[2].startswith("8.0 guest-minutes of waiting, 3 walks: proven best order that")
    assert lines[3] == "as listed 8.0 (0.0 more), largest first 4.0 (4.0 fewer, against your rules)"
