"""The course of the day: the photographer's blocks one after the other, and the drives between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from heapq import heapify, heappop, heappush
from math import inf

from planning.compute.network.values import TRAVEL, Block, Fault, Problem
from planning.compute.travel import find_leg, planned_minutes
from planning.compute.values import Leg

MISSING = (
    'the drive from "%(origin)s" to "%(destination)s" is missing, between "%(before)s" and '
    '"%(after)s": "travel" needs its minutes on the map'
)


@dataclass(frozen=True)
class Course:
    """All blocks in an order that can be walked; `legs` are the drives right before a block of
    the photographer's (None: no drive), `ways` those between a block and one of its `after`."""

    problem: Problem
    blocks: tuple[Block, ...]
    chain: tuple[Block, ...]
    legs: tuple[Leg | None, ...]
    ways: dict[tuple[str, str], Leg]
    missing: tuple[Fault, ...]

    @cached_property
    def gaps(self) -> tuple[int, ...]:
        """Minutes planned for the drive before each block of the chain."""
        return tuple(planned(leg) for leg in self.legs)

    @cached_property
    def names(self) -> dict[str, str]:
        return {block.key: block.name for block in self.blocks}

    @cached_property
    def waits(self) -> dict[str, tuple[tuple[str | None, Leg | None], ...]]:
        """What each block waits for (None: to be there from home), with the drive from it; of the
        photographer's own blocks the one before it waits for all earlier ones already."""
        own = {block.key for block in self.chain}
        found = {
            block.key: [
                (key, self.ways.get((key, block.key)))
                for key in block.after
                if not (block.photographer and key in own)
            ]
            for block in self.blocks
        }
        before = None
        for block, leg in zip(self.chain, self.legs, strict=True):
            found[block.key].append((before, leg))
            before = block.key
        return {key: tuple(waits) for key, waits in found.items()}


def planned(leg: Leg | None) -> int:
    return planned_minutes(leg.map_minutes) if leg else 0


def build_course(problem: Problem) -> Course:
    """The blocks in order, the drives they need, and a fault for each drive nobody told."""
    blocks = in_order(problem.blocks)
    chain = tuple(block for block in blocks if block.photographer)
    legs, missing = drives(problem, chain)
    known = {block.key: block for block in blocks}
    ways = {}
    for block in blocks:
        for key in block.after:
            before = known[key]
            if (
                not (before.photographer and block.photographer)
                and differ(before, block)
                and (leg := find_leg(problem.legs, before.place, block.place))
            ):
                ways[key, block.key] = leg
    return Course(problem, blocks, chain, legs, ways, missing)


def differ(one: Block, other: Block) -> bool:
    return None not in (one.place, other.place) and one.place != other.place


def drives(
    problem: Problem, chain: Sequence[Block]
) -> tuple[tuple[Leg | None, ...], tuple[Fault, ...]]:
    """Where a block has no place, people stay; a block that is a drive itself needs no other."""
    legs: list[Leg | None] = []
    missing = []
    where, last = problem.home, "home"
    for block in chain:
        leg = None
        if block.kind == TRAVEL and block.place is None:
            where = None
        elif block.place is not None:
            if where is not None and block.place != where and block.kind != TRAVEL:
                leg = find_leg(problem.legs, where, block.place)
                if leg is None:
                    names = {"origin": where, "destination": block.place}
                    told = {**names, "before": last, "after": block.name}
                    missing.append(Fault("missing_leg", MISSING, told))
            where = block.place
        legs.append(leg)
        last = block.name
    return tuple(legs), tuple(missing)


def in_order(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """As listed, except where `after`, fixed times and windows say otherwise."""
    number = {block.key: i for i, block in enumerate(blocks)}
    waits = {block.key: len(set(block.after)) for block in blocks}
    followers: dict[str, list[str]] = {block.key: [] for block in blocks}
    for block in blocks:
        for key in set(block.after):
            followers[key].append(block.key)
    early = rank(blocks, followers)
    ready = [(early[key], number[key]) for key, count in waits.items() if not count]
    heapify(ready)
    found = []
    while ready:
        block = blocks[heappop(ready)[1]]
        found.append(block)
        for key in followers[block.key]:
            waits[key] -= 1
            if not waits[key]:
                heappush(ready, (early[key], number[key]))
    return tuple(found)


def rank(blocks: Sequence[Block], followers: dict[str, list[str]]) -> dict[str, float]:
    """A time to sort by: its own, or that of the block it is listed behind; never later than
    that of a block which waits for it."""
    early: dict[str, float] = {}
    times = {True: -inf, False: -inf}  # hers, and those of other people
    for block in blocks:
        time = times[block.photographer]
        if block.fixed is not None:
            time = block.fixed
        elif block.window is not None:
            opens, closes = block.window
            time = min(max(time, opens), max(opens, closes - block.law.likely))
        early[block.key] = times[block.photographer] = time
    for _ in blocks:
        changed = False
        for key, following in followers.items():
            least = min((early[other] for other in following), default=early[key])
            if least < early[key]:
                early[key], changed = least, True
        if not changed:
            break
    return early


def circle(blocks: Sequence[Block]) -> list[str]:
    """Keys of blocks of which each waits for the next and the last for the first, if any do."""
    waits = {block.key: block.after for block in blocks}
    while free := [key for key, after in waits.items() if not any(k in waits for k in after)]:
        for key in free:
            del waits[key]
    path: list[str] = []
    key = next(iter(waits), None)
    while key is not None and key not in path:
        path.append(key)
        key = next(other for other in waits[key] if other in waits)
    return path[path.index(key) :] if key is not None else []
