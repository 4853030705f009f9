"""What only a page that asks for it needs: which block to make sure of first."""

from __future__ import annotations

from .network.course import build_course
from .network.tame import tame
from .planned import Day, Tame


def tame_first(day: Day) -> tuple[Tame, ...]:
    """For the fixed time least sure to be kept, the blocks whose certainty would help it most."""
    if day.problem is None or day.answer is None or not day.answer.promises:
        return ()
    starts = {one.key: one.start or 0 for one in day.answer.planned}
    leave = day.answer.leaving.at if day.answer.leaving else None
    found = tame(build_course(day.problem), starts, leave, day.answer.promises)
    blocks = {kept.block.key: kept.block for kept in day.promises} | {b.key: b for b in day.blocks}
    return tuple(
        Tame(blocks[one.key], blocks[one.promise], one.gain)
        for one in found
        if one.key in blocks and one.promise in blocks
    )
