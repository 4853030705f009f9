"""An evaluator, rule reader and random lists that share nothing with the code under test."""

from itertools import pairwise, permutations

from planning.compute.order import Apart, Before, First, Free, Last, Photograph, Problem


def cost(problem, order):
    """Weighted presence and walks, straight from the definitions, in floats."""
    row = [next(p for p in problem.photographs if p.key == key) for key in order]
    minutes = [p.minutes if p.minutes is not None else 2.5 + 0.1 * p.size for p in row]
    total = 0.0
    for person in {person for p in row for person in p.people}:
        places = [i for i, p in enumerate(row) if person in p.people]
        came = places[0] if problem.presence == "called" else 0
        total += problem.weights.get(person, 1) * sum(minutes[came : places[-1] + 1])
    for i, p in enumerate(row):
        came = i if problem.presence == "called" else 0
        total += p.extra * sum(minutes[came : i + 1])
    return total + problem.walk_price * walks(row)


def walks(row):
    return sum(
        len([x for x in one.people if x not in other.people])
        + len([x for x in other.people if x not in one.people])
        + one.extra
        + other.extra
        for one, other in pairwise(row)
    )


def broken(problem, order):
    """How many rules that order nothing can excuse are broken, and how often people meet."""
    people = {p.key: p.people for p in problem.photographs}
    size = {p.key: p.size for p in problem.photographs}
    place = {key: i for i, key in enumerate(order, 1)}
    hard = meetings = 0
    for rule in problem.rules:
        if isinstance(rule, Before):
            hard += place[rule.one] >= place[rule.other]
        elif isinstance(rule, First):
            hard += place[rule.group] != 1
        elif isinstance(rule, Last):
            hard += place[rule.group] != len(order)
        elif isinstance(rule, Free):
            hard += any(rule.person in people[key] for key in order[rule.by_position :])
        elif isinstance(rule, Apart):
            meetings += sum(
                (rule.one in people[f] and rule.other in people[g])
                or (rule.other in people[f] and rule.one in people[g])
                for f, g in pairwise(order)
            )
    if problem.largest_first:
        hard += any(size[f] < size[g] for f, g in pairwise(order))
    return hard, meetings


def best_by_trial(problem):
    """The least (hard, meetings, cost) over all orders."""
    return min(
        (*broken(problem, order), cost(problem, order)) for order in permutations(problem.keys)
    )


def random_rule(rng, keys, people):
    kind = rng.randrange(5)
    if kind == 0 and len(keys) > 1:
        return Before(*rng.sample(keys, 2))
    if kind == 1:
        return First(rng.choice(keys))
    if kind == 2:
        return Last(rng.choice(keys))
    if kind == 3 and people:
        return Free(rng.choice(people), rng.randint(1, len(keys)))
    if kind == 4 and len(people) > 1:
        return Apart(*rng.sample(people, 2))
    return None


def random_problem(rng, most):
    """Up to `most` photographs with identical ones, strangers, weights, walks and rules."""
    names = [f"p{i}" for i in range(rng.randint(1, 7))]
    photographs = []
    for g in range(rng.randint(0, most)):
        people = tuple(x for x in names if rng.random() < rng.choice((0.3, 0.5, 0.8)))
        extra, minutes = rng.choice((0, 0, 0, 1, 3)), rng.choice((None, 1, 2, 2.5, 3.7))
        photographs.append(Photograph(f"g{g}", people, extra, minutes))
    people = [x for x in names if any(x in p.people for p in photographs)]
    weights = {x: rng.choice((0, 1, 2, 3, 1.5)) for x in people if rng.random() < 0.5}
    keys = [p.key for p in photographs]
    count = rng.choice((0, 0, 1, 2, 3)) if keys else 0
    rules = [random_rule(rng, keys, people) for _ in range(count)]
    return Problem(
        tuple(photographs),
        rng.choice(("gathered", "called")),
        rng.choice((0, 0, 0.2, 1)),
        60.0,
        rng.random() < 0.15,
        weights,
        tuple(rule for rule in rules if rule),
    )
