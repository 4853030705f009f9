"""Why a day does not hold: each conflict as two times, one sum and the minutes short."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from planning.compute.network.course import Course
from planning.compute.network.network import Edge, Network
from planning.compute.network.statements import ORIGIN, build_network
from planning.compute.network.values import Conflict, Post, Term

MOST = 30  # conflicts told; nobody reads more
OPENS: dict[str, Literal["fixed", "opens", "day"]] = {
    "fixed": "fixed",
    "window": "opens",
    "day": "day",
}
CLOSES: dict[str, Literal["fixed", "closes"]] = {"fixed": "fixed", "window": "closes"}
TERMS: dict[str, Literal["block", "drive"]] = {"lasts": "block", "drive": "drive"}


def find_conflicts(course: Course) -> tuple[Conflict, ...]:
    """All conflicts that stay when those before are mended, without repairs."""
    return tuple(as_conflict(cycle) for cycle in cycles(build_network(course)))


def cycles(network: Network) -> list[list[Edge]]:
    """Negative cycles, each from and to ORIGIN. After one is found, the longest thing in it is
    taken to last less by just what is missing, so that the next one is another matter."""
    found: list[list[Edge]] = []
    relaxed = Network(network.origin, list(network.edges))
    places = {id(edge): i for i, edge in enumerate(relaxed.edges)}
    while len(found) < MOST and (cycle := relaxed.negative_cycle()):
        cycle = shortest(turned(cycle), relaxed)
        found.append([network.edges[places[id(edge)]] for edge in cycle])
        step, longer = mended(cycle)
        places[id(longer)] = place = places.pop(id(step))
        relaxed.edges[place] = longer
    return found


def turned(cycle: list[Edge]) -> list[Edge]:
    """From ORIGIN onwards: first the edge to the time that comes too early."""
    i = next(i for i, edge in enumerate(cycle) if edge.a == ORIGIN)
    return cycle[i:] + cycle[:i]


def shortest(cycle: list[Edge], network: Network) -> list[Edge]:
    """The shortest negative cycle whose way back in time is part of this one's."""
    opening: dict[object, Edge] = {}
    closing: dict[object, Edge] = {}
    for edge in network.edges:
        if edge.b == ORIGIN and (edge.a not in opening or edge.weight < opening[edge.a].weight):
            opening[edge.a] = edge
        if edge.a == ORIGIN and (edge.b not in closing or edge.weight < closing[edge.b].weight):
            closing[edge.b] = edge
    way = cycle[1:-1]
    for count in range(1, len(way)):
        for i in range(len(way) - count + 1):
            part = way[i : i + count]
            if part[0].a in closing and part[-1].b in opening:
                smaller = [closing[part[0].a], *part, opening[part[-1].b]]
                if sum(edge.weight for edge in smaller) < 0:
                    return smaller
    return cycle


def mended(cycle: list[Edge]) -> tuple[Edge, Edge]:
    """The longest step between the two times, and the same lasting less by what is missing (where
    there is none, the later time coming later)."""
    missing = -sum(edge.weight for edge in cycle)
    step = min(cycle[1:-1] or cycle[:1], key=lambda edge: edge.weight)
    return step, replace(step, weight=step.weight + missing)


def as_conflict(cycle: list[Edge]) -> Conflict:
    """The two times and what lies between them, in the order of the day."""
    first, last = cycle[-1], cycle[0]
    between = (edge.statement.source for edge in reversed(cycle[1:-1]))
    return Conflict(
        Post(OPENS[first.statement.source.kind], first.statement.source.key, round(-first.weight)),
        tuple(
            Term(TERMS[said.kind], said.key, said.minutes, said.leg)
            for said in between
            if said.kind in TERMS
        ),
        Post(CLOSES[last.statement.source.kind], last.statement.source.key, round(last.weight)),
        shortfall(cycle),
    )


def shortfall(cycle: list[Edge]) -> int:
    return round(-sum(edge.weight for edge in cycle))
