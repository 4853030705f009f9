"""Invented lists of group photographs: two nested families, the bridal party, friends, everyone."""

from random import Random

from planning.compute.order import Photograph, Problem


def family(side, rng):
    """One side of the family, nearest first; children and frail people weigh 3."""
    rings = [
        [f"{side} parent {i}" for i in range(2)],
        [f"{side} sibling {i}" for i in range(rng.randint(1, 4))],
        [f"{side} grandparent {i}" for i in range(rng.randint(0, 4))],
        [f"{side} child {i}" for i in range(rng.randint(0, 3))],
        [f"{side} aunt {i}" for i in range(rng.randint(2, 6))],
        [f"{side} cousin {i}" for i in range(rng.randint(2, 8))],
    ]
    heavy = rings[2] + rings[3]
    return rings, {person: 3 for person in heavy if rng.random() < 0.7}


def family_groups(rings, rng):
    """Nested pictures of a side, then parts of it in any mixture."""
    yield [person for ring in rings for person in ring]
    for depth in range(1, len(rings)):
        yield [person for ring in rings[:depth] for person in ring]
    while True:
        chosen = rng.sample(rings, rng.randint(1, 3))
        people = [person for ring in chosen for person in ring]
        yield rng.sample(people, max(1, round(len(people) * rng.uniform(0.4, 1)))) if people else []


def wedding(groups, seed, **options):
    """A `Problem` with that many groups; the couple (weight 0) are in every picture."""
    rng = Random(seed * 1000 + groups)  # noqa: S311 - seeded on purpose
    couple = ["Partner A", "Partner B"]
    weights = dict.fromkeys(couple, 0)
    left, more = family("A", rng)
    right, other = family("B", rng)
    weights |= more | other
    party = [f"party {i}" for i in range(rng.randint(3, 8))]
    friends = [f"friend {i}" for i in range(rng.randint(4, 14))]
    everyone = [p for ring in left + right for p in ring] + party + friends
    lists = [everyone, party, friends]
    sources = [family_groups(left, rng), family_groups(right, rng), parts(party + friends, rng)]
    while len(lists) < groups:
        lists.append(next(rng.choices(sources, (4, 4, 2))[0]))
    lists = lists[:groups]
    rng.shuffle(lists)
    photographs = [
        Photograph(f"g{i}", tuple(couple + people), minutes=round(2.5 + 0.1 * len(people), 1))
        for i, people in enumerate(lists, 1)
    ]
    return Problem(tuple(photographs), weights=weights, **options)


def parts(people, rng):
    while True:
        yield rng.sample(people, rng.randint(2, max(2, len(people) // 2)))
