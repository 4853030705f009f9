"""Times to suggest: the placement, polished by trying moves on simulated days."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from math import fsum

from planning.compute.network.course import Course, build_course
from planning.compute.network.draws import DAYS
from planning.compute.network.leave import leave
from planning.compute.network.network import Edge, Network
from planning.compute.network.placement import IDLE, UNIT, hurt
from planning.compute.network.settle import place, with_others
from planning.compute.network.simulate import Minutes, Simulated, promises, simulate
from planning.compute.network.statements import bounds, build_network
from planning.compute.network.values import Block, Problem

FEW = 300  # days a move is tried on; the result is judged on all of them
MOST = 600  # moves tried: counted, not timed, so that every machine suggests the same
MOVES = (5, -5, 10, -10, 15, -15)


@dataclass(frozen=True, slots=True)
class Tried:
    """A plan on simulated days, and what each block's lateness costs in it."""

    starts: dict[str, int]
    days: Simulated
    costs: Mapping[str, float]
    idle: float

    @property
    def late(self) -> float:
        return fsum(self.costs.values())

    @property
    def total(self) -> float:
        return self.late + self.idle


def suggest(problem: Problem, kept: Collection[str] = ()) -> dict[str, int]:
    """A start for each block, whatever was wished but for those `kept`; empty where the day does
    not hold.

    The placement counts each gap by itself; here single blocks of the photographer's move by 5,
    10 or 15 minutes as long as that lowers the lateness of whole simulated days, weighted as the
    placement does. On all simulated days the lateness is never more than that of the placement,
    and no promise less sure than there, but for what it has above the chance that is wanted.
    """
    blocks = tuple(
        block if block.key in kept else replace(block, wished=None) for block in problem.blocks
    )
    course = build_course(replace(problem, blocks=blocks))
    network = build_network(course)
    if network.negative_cycle():
        return {}
    held = {key: (low, high) for key, low, high in bounds(network, course)}
    placed = tried(course, place(course, network, held), DAYS)
    found = polished(course, network, placed, kept)
    chain = {block.key: found.starts[block.key] for block in course.chain}
    found = tried(course, with_others(course, network, chain), DAYS)
    return (found if better(course, found, placed) else placed).starts


def better(course: Course, new: Tried, old: Tried) -> bool:
    """Less late, no more idle than that is worth, and no promise below `wanted` that was not."""
    wanted = course.problem.wanted
    kept = zip(promises(course, new.days), promises(course, old.days), strict=True)
    return (
        new.late <= old.late
        and new.total < old.total
        and all(one.chance >= min(wanted, other.chance) for one, other in kept)
    )


def polished(course: Course, network: Network, placed: Tried, kept: Collection[str] = ()) -> Tried:
    """Round after round, until no move helps: tried on a few days, then judged on all."""
    free = [block for block in course.chain if block.fixed is None and block.key not in kept]
    moves = [(block, by) for block in free for by in MOVES]
    edges = edges_of(network)
    likely = {block.key: round(block.law.likely) for block in course.blocks}
    best, few = placed, tried(course, placed.starts, FEW)
    count, still, at = 0, 0, 0
    while still < len(moves) and count < MOST:
        block, by = moves[at]
        at, still = (at + 1) % len(moves), still + 1
        moved = {**best.starts, block.key: best.starts[block.key] + by}
        if not holds(edges[block.key], moved, likely):
            continue
        count += 1
        new = tried(course, moved, FEW, few, block.key)
        if new.total < few.total:
            judged = tried(course, moved, DAYS, best, block.key)
            if better(course, judged, best):
                best, few, still = judged, new, 0
    return best


def edges_of(network: Network) -> dict[str, list[Edge]]:
    """What is said of each block; points are (key, side)."""
    found: dict[str, list[Edge]] = {}
    for edge in network.edges:
        for key in {edge.a[0], edge.b[0]}:
            found.setdefault(key, []).append(edge)
    return found


def holds(edges: list[Edge], starts: Mapping[str, int], likely: Mapping[str, int]) -> bool:
    def time(point: tuple[str, str]) -> int:
        key, side = point
        return starts.get(key, 0) + (likely[key] if side == "end" else 0)

    return all(time(edge.b) - time(edge.a) <= edge.weight for edge in edges)


def tried(
    course: Course,
    starts: dict[str, int],
    days: int,
    before: Tried | None = None,
    moved: str | None = None,
) -> Tried:
    leaving = leave(course, starts)
    known = before.days if before else None
    changed = () if moved is None else (moved,)
    new = simulate(course, starts, leaving.at if leaving else None, days, known, changed)
    costs = {
        block.key: before.costs[block.key]
        if before and block.key != moved and same(before.days, new, block.key)
        else cost(block, starts[block.key], new)
        for block in course.blocks
    }
    ends = [starts[block.key] for block in (course.chain[:1] + course.chain[-1:])]
    return Tried(starts, new, costs, IDLE / UNIT * (ends[-1] - ends[0]) if ends else 0)


def same(before: Simulated, new: Simulated, key: str) -> bool:
    return before.ready[key] is new.ready[key] and before.ends[key] is new.ends[key]


def cost(block: Block, planned: int, days: Simulated) -> float:
    """Importance x (the minutes it starts late, and those it ends after its window)."""
    found = mean_over(days.ready[block.key], planned)
    if block.window is not None:
        found += mean_over(days.ends[block.key], block.window[1])
    return hurt(block) * found


def mean_over(times: Minutes, limit: int) -> float:
    return fsum([time - limit for time in times if time > limit]) / len(times)
