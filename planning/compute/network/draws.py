"""The simulated days: the same ones at every edit and on every machine.

Each thing that takes time has its own draw for each day, known by its key, so that a new block
changes no other. Days have a slow-crowd factor in common: what is slow is slow together. The
draws of one thing are the midpoints of equal shares in a random order, so its own law comes out
exact. Only sums, products and orders of rounded numbers are used, which no machine sees otherwise.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt
from random import Random
from statistics import NormalDist

from planning.compute.network.laws import Law

DAYS = 2000
CORRELATION = 0.3  # own choice, no source: independent blocks make every plan look safe
SEED = "foreday"


@lru_cache(maxsize=8)
def scores(days: int) -> tuple[float, ...]:
    """Normal scores of the midpoints of equal shares."""
    normal = NormalDist()
    return tuple(round(normal.inv_cdf((i + 0.5) / days), 6) for i in range(days))


@lru_cache(maxsize=8)  # only the crowd's is asked for again
def shuffled(key: str, days: int) -> tuple[float, ...]:
    drawn = list(scores(days))
    Random(f"{SEED} {key}").shuffle(drawn)  # noqa: S311 - the same days every time
    return tuple(drawn)


@lru_cache(maxsize=256)
def shares(key: str, days: int = DAYS) -> tuple[float, ...]:
    """For each day a share between 0 and 1: how slow this thing is on that day."""
    own, common = sqrt(1 - CORRELATION), sqrt(CORRELATION)
    mixed = [
        own * mine + common * crowd
        for mine, crowd in zip(shuffled(f"own {key}", days), shuffled("day", days), strict=True)
    ]
    found = [0.0] * days
    for rank, day in enumerate(sorted(range(days), key=mixed.__getitem__)):
        found[day] = (rank + 0.5) / days
    return tuple(found)


@lru_cache(maxsize=512)
def minutes(key: str, law: Law, days: int = DAYS) -> tuple[float, ...]:
    """How long this thing takes on each day."""
    a, m, b = law.least, law.likely, law.most
    if a == b:
        return (float(m),) * days
    turn, low, high = (m - a) / (b - a), (b - a) * (m - a), (b - a) * (b - m)
    return tuple(
        a + sqrt(share * low) if share < turn else b - sqrt((1 - share) * high)
        for share in shares(key, days)
    )
