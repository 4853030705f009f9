"""The statements of a day as a network: one point for 00:00, two for each block."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import Literal

from planning.compute.network.course import Course
from planning.compute.network.network import Network, Point
from planning.compute.network.values import Block
from planning.compute.travel import planned_minutes
from planning.compute.values import Leg

ORIGIN = ("", "day")
Kind = Literal["day", "fixed", "window", "lasts", "order", "drive"]


@dataclass(frozen=True, slots=True)
class Said:
    """What a statement says, about the block `key`; `minutes` of a block or planned drive."""

    kind: Kind
    key: str
    minutes: int = 0
    leg: Leg | None = None


def start(key: str) -> tuple[str, str]:
    return key, "start"


def end(key: str) -> tuple[str, str]:
    return key, "end"


def build_network(course: Course, least: bool = False) -> Network:
    """With likely minutes and planned drives; with `least`, the least there can be of both."""
    network = Network(ORIGIN)
    legs = {block.key: leg for block, leg in zip(course.chain, course.legs, strict=True)}
    previous = {block.key: before.key for before, block in pairwise(course.chain)}
    # In the order of the day, so that one sweep of Bellman-Ford sees all of it.
    for block in course.blocks:
        before = previous.get(block.key)
        if before is not None:
            follow(network, before, block.key, legs[block.key], least)
        for key in block.after:
            if key != before:
                follow(network, key, block.key, course.ways.get((key, block.key)), least)
        say_block(network, block, round(block.law.least if least else block.law.likely))
    return network


def say_block(network: Network, block: Block, minutes: int) -> None:
    key = block.key
    network.say(ORIGIN, start(key), 0, source=Said("day", key))
    network.say(start(key), end(key), minutes, minutes, Said("lasts", key, minutes))
    if block.fixed is not None:
        network.say(ORIGIN, start(key), block.fixed, block.fixed, Said("fixed", key))
    if block.window is not None:
        said = Said("window", key)
        network.say(ORIGIN, start(key), block.window[0], source=said)
        network.say(ORIGIN, end(key), -inf, block.window[1], said)


def follow(network: Network, before: str, key: str, leg: Leg | None, least: bool) -> None:
    if leg is None:
        network.say(end(before), start(key), 0, source=Said("order", key))
        return
    minutes = leg.map_minutes if least else planned_minutes(leg.map_minutes)
    network.say(end(before), start(key), minutes, source=Said("drive", key, minutes, leg))


def bounds(network: Network, course: Course) -> Iterator[tuple[str, int, int | None]]:
    """The earliest and latest start of each block; None where nothing holds it."""
    return bounds_from(course, network.latest(), network.way_back())


def bounds_from(
    course: Course, latest: Mapping[Point, float], back: Mapping[Point, float]
) -> Iterator[tuple[str, int, int | None]]:
    for block in course.blocks:
        late, way = latest[start(block.key)], back[start(block.key)]
        yield block.key, int(-way), None if late == inf else int(late)
