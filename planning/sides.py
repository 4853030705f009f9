"""The day when it is fair beside the day when it rains, for page and paper."""

from __future__ import annotations

from dataclasses import dataclass

from .compute.planned import Block, Day


@dataclass(frozen=True)
class Side:
    """A block when it is fair beside itself when it rains; None where it is left out."""

    fair: Block | None
    wet: Block | None

    @property
    def differs(self) -> bool:
        if self.fair is None or self.wet is None:
            return True
        return _stands(self.fair) != _stands(self.wet)


def _stands(block: Block) -> tuple[object, ...]:
    return block.start, block.end, block.place


def sides(day: Day) -> list[Side]:
    """Both plans in the order of the fair one, with what only the wet one has behind it."""
    if day.wet is None:
        return []
    wet = {block.key: block for block in day.wet.blocks}
    fair = {block.key for block in day.blocks}
    both = [Side(block, wet.get(block.key)) for block in day.blocks]
    return both + [Side(None, block) for block in day.wet.blocks if block.key not in fair]
