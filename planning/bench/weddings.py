"""Invented lists of group photographs: two nested families, the bridal party, friends, everyone."""

from collections.abc import Iterator
from random import Random
from typing import Any

from planning.compute.order import Photograph, Problem

Rings = list[list[str]]


def family(side: str, rng: Random) -> tuple[Rings, dict[str, float]]:
    """One side of a family, nearest first; most children and grandparents weigh 3."""
    rings = [
        [f"{side} parent {i}" for i in range(2)],
        [f"{side} sibling {i}" for i in range(rng.randint(1, 4))],
        [f"{side} grandparent {i}" for i in range(rng.randint(0, 4))],
        [f"{side} child {i}" for i in range(rng.randint(0, 3))],
        [f"{side} aunt {i}" for i in range(rng.randint(2, 6))],
        [f"{side} cousin {i}" for i in range(rng.randint(2, 8))],
    ]
    return rings, {person: 3 for person in rings[2] + rings[3] if rng.random() < 0.7}


def family_groups(rings: Rings, rng: Random) -> Iterator[list[str]]:
    """The whole side, its inner rings from the parents outwards, then any mixture of parts."""
    yield [person for ring in rings for person in ring]
    for depth in range(1, len(rings)):
        yield [person for ring in rings[:depth] for person in ring]
    while True:
        chosen = rng.sample(rings, rng.randint(1, 3))
        people = [person for ring in chosen for person in ring]
        yield rng.sample(people, max(1, round(len(people) * rng.uniform(0.4, 1)))) if people else []


def parts(people: list[str], rng: Random) -> Iterator[list[str]]:
    while True:
        yield rng.sample(people, rng.randint(2, max(2, len(people) // 2)))


def wedding(groups: int, seed: int, **options: Any) -> Problem:
    """A list of that many; the couple (weight 0) are in every picture; 2.5 minutes and a tenth
    more for each other person."""
    rng = Random(seed * 1000 + groups)  # noqa: S311 - invented, and the same every time
    couple = ["Partner A", "Partner B"]
    left, more = family("A", rng)
    right, other = family("B", rng)
    weights: dict[str, float] = dict.fromkeys(couple, 0.0) | more | other
    party = [f"party {i}" for i in range(rng.randint(3, 8))]
    friends = [f"friend {i}" for i in range(rng.randint(4, 14))]
    everyone = [person for ring in left + right for person in ring] + party + friends
    lists = [everyone, party, friends]
    sources = [family_groups(left, rng), family_groups(right, rng), parts(party + friends, rng)]
    while len(lists) < groups:
        lists.append(next(rng.choices(sources, (4, 4, 2))[0]))
    lists = lists[:groups]
    rng.shuffle(lists)
    photographs = tuple(
        Photograph(f"g{i}", (*couple, *people), minutes=round(2.5 + 0.1 * len(people), 1))
        for i, people in enumerate(lists, 1)
    )
    named = {person for photograph in photographs for person in photograph.people}
    weights = {person: weight for person, weight in weights.items() if person in named}
    return Problem(photographs, weights=weights, **options)
