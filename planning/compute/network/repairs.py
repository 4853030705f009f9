"""What would mend a conflict: each repair is tried on the whole day before it is offered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from planning.compute.network.changes import DROP, Change, changed, short_law
from planning.compute.network.conflicts import as_conflict, cycles, shortfall
from planning.compute.network.course import Course, build_course
from planning.compute.network.network import Edge
from planning.compute.network.statements import Said, build_network
from planning.compute.network.values import Block, Conflict, Fault, Repair

Rest = Mapping[frozenset[Said], int]
LAST = 48 * 60
MENDED = 6  # conflicts with repairs, own choice: whoever mends these is offered more
LIGHT = {"golden", "light"}  # windows of this kind nobody can move


def conflicts_with_repairs(course: Course) -> tuple[Conflict, ...]:
    """Every conflict in the order of the day, the first with the repairs that mend it and make no
    other."""
    found = sorted(cycles(build_network(course)), key=lambda cycle: -cycle[-1].weight)
    before = {key(cycle): shortfall(cycle) for cycle in found}
    told = []
    for cycle in found[:MENDED]:
        rest = {one: by for one, by in before.items() if one != key(cycle)}
        told.append(replace(as_conflict(cycle), repairs=tuple(offered(course, cycle, rest))))
    return (*told, *map(as_conflict, found[MENDED:]))


def key(cycle: list[Edge]) -> frozenset[Said]:
    """What a conflict is about, whatever its blocks last."""
    sources = (edge.statement.source for edge in cycle)
    return frozenset(Said(said.kind, said.key) for said in sources)


def drive(fault: Fault) -> tuple[str, str]:
    return fault.values["origin"], fault.values["destination"]


def mends(course: Course, change: Change, rest: Rest) -> bool:
    """No conflict is left but those told beside this one, none of them worse, and no other
    drive is missing."""
    lacking = {drive(fault) for fault in course.missing}
    course = build_course(changed(course.problem, change))
    if any(drive(fault) not in lacking for fault in course.missing):
        return False
    left = cycles(build_network(course))
    return all(shortfall(cycle) <= rest.get(key(cycle), 0) for cycle in left)


def offered(course: Course, cycle: list[Edge], rest: Rest) -> Iterator[Repair]:
    """Shorter, left out, all of it together where none is enough, and moved; only where nothing
    of that is left, a time that others hold."""
    blocks = involved(course, cycle)
    singles = [repair for block in blocks for repair in cuts(block)]
    good = [repair for repair in singles if mends(course, repair.change, rest)]
    yield from good
    if not good and len(singles) > 1 and (both := together(course, blocks, rest)):
        good = [both]
        yield both
    if not good:
        yield from cut_and_moved(course, cycle, blocks, rest)
    moved = [repair for repair in moves(course, cycle) if mends(course, repair.change, rest)]
    free = [repair for repair in moved if repair.kind != "ask"]
    yield from free if good or free else moved


def involved(course: Course, cycle: list[Edge]) -> list[Block]:
    """The blocks that take time in this conflict, in the order of the day."""
    known = {block.key: block for block in course.blocks}
    sources = (edge.statement.source for edge in reversed(cycle))
    return [known[said.key] for said in sources if said.kind == "lasts"]


def cuts(block: Block) -> Iterator[Repair]:
    if (law := short_law(block)) is not None:
        yield Repair("shorten", {block.key: {"law": law}})
    if block.droppable and block.fixed is None:
        yield Repair("leave_out", {block.key: DROP})


def together(course: Course, blocks: list[Block], rest: Rest) -> Repair | None:
    """One cut after the other, the least important block first, until they are enough."""
    change: dict[str, Any] = {}
    for block in sorted(blocks, key=lambda block: block.importance):
        for repair in cuts(block):
            change |= repair.change
            if mends(course, change, rest):
                return Repair("together", change)
    return None


def cut_and_moved(
    course: Course, cycle: list[Edge], blocks: list[Block], rest: Rest
) -> Iterator[Repair]:
    """Where cuts are not enough: every short form, and one time moved by what is still short."""
    laws = {block.key: law for block in blocks if (law := short_law(block)) is not None}
    saved = sum(round(b.law.likely - laws[b.key].likely) for b in blocks if b.key in laws)
    by = shortfall(cycle) - saved
    known = {block.key: block for block in course.blocks}
    for edge, way in ((cycle[0], by), (cycle[-1], -by)):
        said = edge.statement.source
        block = known[said.key] if said.kind == "fixed" else None
        if block is None or not block.movable or not saved or by <= 0:
            continue
        change: dict[str, dict[str, Any]] = {key: {"law": law} for key, law in laws.items()}
        change[block.key] = change.get(block.key, {}) | {"fixed": (block.fixed or 0) + way}
        if mends(course, change, rest):
            yield Repair("together", change)


def moves(course: Course, cycle: list[Edge]) -> Iterator[Repair]:
    """The later time later, or the earlier one earlier, by the minutes short."""
    known = {block.key: block for block in course.blocks}
    short_by = shortfall(cycle)
    for edge, by in ((cycle[0], short_by), (cycle[-1], -short_by)):
        said = edge.statement.source
        if said.kind in ("fixed", "window"):
            yield from moved(known[said.key], said.kind, by)


def moved(block: Block, kind: str, by: int) -> Iterator[Repair]:
    if kind == "fixed" and block.fixed is not None and 0 <= block.fixed + by < LAST:
        kind_of_move = "move" if block.movable else "ask"
        yield Repair(kind_of_move, {block.key: {"fixed": block.fixed + by}})
    elif kind == "window" and block.window is not None and block.kind not in LIGHT:
        opens, closes = block.window
        window = (opens, closes + by) if by > 0 else (opens + by, closes)
        if window[0] >= 0 and window[1] < LAST:
            yield Repair("widen", {block.key: {"window": window}})
