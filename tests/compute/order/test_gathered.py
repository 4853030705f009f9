from itertools import permutations
from random import Random

from planning.bench.weddings import wedding
from planning.compute.order import solve
from planning.compute.order.budget import Budget
from planning.compute.order.gathered import Gathered
from planning.compute.order.instance import bits


def total(order, classes, minutes):
    ends, now = {}, 0
    for g in order:
        ends[g] = now = now + minutes[g]
    return sum(weight * max(ends[g] for g in bits(mask)) for mask, weight in classes.items())


def lists(count, most):
    for seed in range(count):
        rng = Random(f"gathered {seed}")  # noqa: S311 - seeded on purpose
        n = rng.randint(1, most)
        minutes = [rng.randint(1, 5) for _ in range(n)]
        classes = {}
        for _ in range(rng.randint(1, 7)):
            mask = rng.randrange(1, 1 << n)
            classes[mask] = classes.get(mask, 0) + rng.randint(1, 4)
        yield rng, n, minutes, classes


def test_taking_the_list_apart_finds_what_trying_every_order_finds():
    for _, n, minutes, classes in lists(150, 6):
        found = Gathered(minutes, [0] * n, Budget(60)).solve((1 << n) - 1, classes)
        least = min(total(order, classes, minutes) for order in permutations(range(n)))
        assert found.low == found.value == total(found.order, classes, minutes) == least


def test_what_comes_first_is_kept():
    for rng, n, minutes, classes in lists(100, 6):
        before = [0] * n
        for g in range(1, n):
            if rng.random() < 0.4:
                f = rng.randrange(g)
                before[g] = before[f] | 1 << f
        sidney = Gathered(minutes, before, Budget(60))
        found = sidney.solve((1 << n) - 1, sidney.closed(classes))
        orders = [
            order
            for order in permutations(range(n))
            if all(not before[g] & ~sum(1 << f for f in order[:i]) for i, g in enumerate(order))
        ]
        assert found.order in orders
        assert found.value == min(total(order, classes, minutes) for order in orders)


def test_the_quick_bound_of_a_chain_is_never_above_the_best():
    for _, n, minutes, classes in lists(150, 6):
        sidney = Gathered(minutes, [0] * n, Budget(60))
        quick = sidney.low(sidney.part(classes))
        assert quick <= sidney.solve((1 << n) - 1, classes).value


def test_without_time_the_bound_is_still_below_the_best():
    for _, n, minutes, classes in lists(100, 6):
        hurried = Gathered(minutes, [0] * n, Budget(0)).solve((1 << n) - 1, classes)
        best = Gathered(minutes, [0] * n, Budget(60)).solve((1 << n) - 1, classes)
        assert hurried.low <= best.value <= hurried.value
        assert hurried.value == total(hurried.order, classes, minutes)


def test_a_long_wedding_list_is_proven():
    answer = solve(wedding(40, 1, seconds=60))
    assert answer.proven
    assert answer.measure.cost <= answer.largest_first.cost
