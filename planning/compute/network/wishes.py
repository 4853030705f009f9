"""The starts the photographer chose, kept as far as the day allows.

Between its earliest and its latest time every time of a point has a plan (a consistent network is
decomposable: Dechter, Meiri & Pearl 1991, from memory), so the nearest of them is the nearest
possible start.
"""

from __future__ import annotations

from collections.abc import Mapping

from planning.compute.network.course import Course
from planning.compute.network.network import Network, settle
from planning.compute.network.statements import ORIGIN, bounds, bounds_from, start

Bounds = dict[str, tuple[int, int | None]]


def pinned_to_wishes(course: Course, network: Network, held: Bounds) -> tuple[Network, Bounds]:
    """The network with each wish pinned, or the start nearest to it that those before leave (the
    photographer's first, in the order of the day), and the bounds this leaves to the others."""
    others = [block for block in course.blocks if not block.photographer]
    blocks = (*course.chain, *others)
    wishes = {block.key: block.wished for block in blocks if block.wished is not None}
    if not wishes:
        return network, held
    pinned = pin(network, wishes)
    if pinned.negative_cycle():
        return nearest(course, network, wishes)
    return pinned, {key: (low, high) for key, low, high in bounds(pinned, course)}


def pin(network: Network, starts: Mapping[str, int]) -> Network:
    pinned = Network(network.origin, list(network.edges))
    for key, at in starts.items():
        pinned.say(ORIGIN, start(key), at, at)
    return pinned


def nearest(course: Course, network: Network, wishes: Mapping[str, int]) -> tuple[Network, Bounds]:
    """Each pinned in turn; the shortest ways are kept up, not counted anew."""
    latest, back = network.latest(), network.way_back()
    there = [(edge.a, edge.b, edge.weight) for edge in network.edges]
    home = [(b, a, weight) for a, b, weight in there]
    found = {}
    for key, wished in wishes.items():
        point = start(key)
        found[key] = at = int(min(max(wished, -back[point]), latest[point]))
        latest[point], back[point] = at, -at
        settle(there, latest)
        settle(home, back)
    held = {key: (low, high) for key, low, high in bounds_from(course, latest, back)}
    return pin(network, found), held
