"""The simple temporal network: statements about pairs of points in time.

A statement says lo <= t(b) - t(a) <= hi. It holds with all others exactly when the distance
graph (a -> b of weight hi, b -> a of weight -lo) has no negative cycle (Shostak; Liao & Wong;
Leiserson & Saxe, as quoted in Dechter, Meiri & Pearl, Artificial Intelligence 49 (1991) 61-95).
Bellman-Ford finds one; every edge knows its statement, so the cycle can be told in words.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from math import inf
from typing import Any

Point = Hashable


@dataclass(frozen=True, slots=True)
class Statement:
    """lo <= t(b) - t(a) <= hi, whole minutes or infinite; `source` is what a person said."""

    a: Point
    b: Point
    lo: float
    hi: float
    source: Any = None


@dataclass(frozen=True, slots=True)
class Edge:
    """t(b) - t(a) <= weight."""

    a: Point
    b: Point
    weight: float
    statement: Statement


@dataclass(slots=True)
class Network:
    """A list of edges, never a matrix: two statements about the same points both stay."""

    origin: Point
    edges: list[Edge] = field(default_factory=list)

    def say(self, a: Point, b: Point, lo: float, hi: float = inf, source: Any = None) -> None:
        statement = Statement(a, b, lo, hi, source)
        if hi < inf:
            self.edges.append(Edge(a, b, hi, statement))
        if lo > -inf:
            self.edges.append(Edge(b, a, -lo, statement))

    @property
    def points(self) -> list[Point]:
        ends = (point for edge in self.edges for point in (edge.a, edge.b))
        return list(dict.fromkeys((self.origin, *ends)))

    def latest(self) -> dict[Point, float]:
        """The latest time of each point, infinite where nothing holds it; needs consistency."""
        return self.from_origin([(e.a, e.b, e.weight) for e in self.edges])

    def earliest(self) -> dict[Point, float]:
        """The earliest time of each point, minus infinity where nothing holds it."""
        return {point: 0 if way == 0 else -way for point, way in self.way_back().items()}

    def way_back(self) -> dict[Point, float]:
        """The shortest way from each point to the origin: minus its earliest time."""
        return self.from_origin([(e.b, e.a, e.weight) for e in self.edges])

    def from_origin(self, arcs: list[tuple[Point, Point, float]]) -> dict[Point, float]:
        way: dict[Point, float] = dict.fromkeys(self.points, inf)
        way[self.origin] = 0
        settle(arcs, way)
        return way

    def negative_cycle(self) -> list[Edge]:
        """A simple cycle of edges, each starting where the one before ends, whose weights have a
        negative sum; empty when all statements hold together."""
        way: dict[Point, float] = dict.fromkeys(self.points, 0)
        into: dict[Point, int] = {}
        arcs = [(e.a, e.b, e.weight) for e in self.edges]

        def circle() -> list[Edge]:
            return walk_back(self.edges, into)

        return settle(arcs, way, into, circle) or []


def settle(
    arcs: Sequence[tuple[Point, Point, float]],
    way: dict[Point, float],
    into: dict[Point, int] | None = None,
    stop: Callable[[], list[Edge]] | None = None,
) -> list[Edge] | None:
    """Bellman-Ford in place, the arcs forwards and backwards in turn; ends early with what
    `stop` finds after a round. `into` notes the arc each way came by."""
    orders: tuple[Iterable[tuple[int, tuple[Point, Point, float]]], ...] = (
        list(enumerate(arcs)),
        list(enumerate(arcs))[::-1],
    )
    for number in range(len(way) + 1):
        changed = False
        for index, (a, b, weight) in orders[number % 2]:
            if way[a] + weight < way[b]:
                way[b] = way[a] + weight
                changed = True
                if into is not None:
                    into[b] = index
        if not changed:
            return None
        if stop and (found := stop()):
            return found
    return None


def walk_back(edges: Sequence[Edge], into: dict[Point, int]) -> list[Edge]:
    """A circle among the arcs the ways came by, which always has a negative sum."""
    seen: dict[Point, Point] = {}
    for first in into:
        point = first
        while point in into and point not in seen:
            seen[point] = first
            point = edges[into[point]].a
        if point in into and seen[point] == first:
            circle = [edges[into[point]]]
            while circle[-1].a != point:
                circle.append(edges[into[circle[-1].a]])
            return circle[::-1]
    return []
