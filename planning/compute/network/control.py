"""Whether a plan holds however long the things nobody controls last (strong controllability).

A statement about the end of such a thing becomes one about its start, for the worst of its
lengths; the ordinary network then decides. A goal rather than a gate: whole weddings fail it.
"""

from __future__ import annotations

from collections.abc import Mapping

from planning.compute.network.network import Edge, Network, Point

Uncontrolled = Mapping[Point, tuple[Point, float, float]]


def in_the_worst_case(network: Network, uncontrolled: Uncontrolled) -> Network:
    """`uncontrolled` gives for an end the start it follows, and the least and most it lasts."""
    found = Network(network.origin)
    for edge in network.edges:
        a, b, weight = edge.a, edge.b, edge.weight
        if b in uncontrolled:
            b, _, most = uncontrolled[b]
            weight -= most
        if a in uncontrolled:
            a, least, _ = uncontrolled[a]
            weight += least
        found.edges.append(Edge(a, b, weight, edge.statement))
    return found
