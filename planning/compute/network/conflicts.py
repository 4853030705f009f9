"""Why a day does not hold: each conflict as two times, one sum and the minutes short."""

from __future__ import annotations

from dataclasses import replace

from planning.compute.network.course import Course
from planning.compute.network.network import Edge, Network
from planning.compute.network.statements import ORIGIN, STRUCTURE, Said, build_network
from planning.compute.network.values import Block, Conflict
from planning.compute.network.words import length, quote

MOST = 30  # conflicts told; nobody reads more


def find_conflicts(course: Course) -> tuple[Conflict, ...]:
    """All conflicts that stay when those before are mended, without repairs."""
    return tuple(tell(course, cycle) for cycle in cycles(build_network(course)))


def cycles(network: Network) -> list[list[Edge]]:
    """Negative cycles, each from and to ORIGIN. After one is found, the longest thing in it is
    taken to last less by just what is missing, so that the next one is another matter."""
    found: list[list[Edge]] = []
    relaxed = Network(network.origin, list(network.edges))
    while len(found) < MOST and (cycle := relaxed.negative_cycle()):
        cycle = shortest(turned(cycle), relaxed)
        original = [network.edges[relaxed.edges.index(edge)] for edge in cycle]
        found.append(original)
        mend(relaxed, cycle)
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


def mend(network: Network, cycle: list[Edge]) -> None:
    """Lets the longest step between the two times last less by what is missing (where there is
    none, the later time come later)."""
    missing = -sum(edge.weight for edge in cycle)
    step = min(cycle[1:-1] or cycle[:1], key=lambda edge: edge.weight)
    network.edges[network.edges.index(step)] = replace(step, weight=step.weight + missing)


def tell(course: Course, cycle: list[Edge]) -> Conflict:
    said = [edge.statement.source for edge in reversed(cycle)]  # in the order of the day
    told = [one for one in dict.fromkeys(said) if one.kind not in STRUCTURE]
    short_by = round(-sum(edge.weight for edge in cycle))
    blocks = {block.key: block for block in course.blocks}
    return Conflict(
        tuple(sentence(course, blocks, one) for one in told),
        short_by,
        in_one_sum(course, blocks, cycle, short_by),
    )


def sentence(course: Course, blocks: dict[str, Block], said: Said) -> str:
    block, shown = blocks[said.key], course.problem.hours.shown
    match said.kind:
        case "fixed":
            return f"{quote(block.name)} is fixed at {shown(block.fixed or 0)}"
        case "window":
            opens, closes = block.window or (0, 0)
            return f"{quote(block.name)} must lie between {shown(opens)} and {shown(closes)}"
        case "drive":
            return drive(said)
        case _:
            return f"{quote(block.name)} takes {length(said.minutes)}"


def drive(said: Said) -> str:
    leg = said.leg
    if leg is None:
        return ""
    return (
        f"the drive from {quote(leg.origin)} to {quote(leg.destination)} takes "
        f"{length(said.minutes)} ({leg.map_minutes} on the map and a third more)"
    )


def in_one_sum(course: Course, blocks: dict[str, Block], cycle: list[Edge], short_by: int) -> str:
    """The two times, and the sum of what lies between."""
    shown = course.problem.hours.shown
    opens, closes = round(-cycle[-1].weight), round(cycle[0].weight)
    first, last = cycle[-1].statement.source, cycle[0].statement.source
    steps = [edge.statement.source for edge in reversed(cycle[1:-1])]
    if not steps:
        return (
            f"{begins(blocks, first, shown(opens))}, but {must(blocks, last, shown(closes))}: "
            f"{length(short_by)} short"
        )
    terms = []
    for step in steps:
        if step.kind == "drive":
            terms.append(f"drive to {quote(step.leg.destination)} {step.minutes}")
        elif step.kind == "lasts":
            terms.append(f"{quote(blocks[step.key].name)} {step.minutes}")
    total = sum(step.minutes for step in steps)
    between = " + ".join(terms) + (f" = {length(total)}" if len(terms) > 1 else " minutes")
    return (
        f"{begins(blocks, first, shown(opens))}; {between}, so until "
        f"{shown(opens + total)} at the earliest; {must(blocks, last, shown(closes))}: "
        f"{length(short_by)} short"
    )


def begins(blocks: dict[str, Block], said: Said, at: str) -> str:
    name = quote(blocks[said.key].name)
    match said.kind:
        case "fixed":
            return f"{name} is fixed at {at}"
        case "window":
            return f"{name} starts no earlier than {at}"
        case _:
            return f"the day begins at {at}"


def must(blocks: dict[str, Block], said: Said, at: str) -> str:
    name = quote(blocks[said.key].name)
    return f"{name} is fixed at {at}" if said.kind == "fixed" else f"{name} must end by {at}"
