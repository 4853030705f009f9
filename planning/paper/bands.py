"""The light at the left edge of a printed timeline: which of four kinds each block has."""

from __future__ import annotations

from planning.compute.light import light_bands
from planning.compute.planned import Day


def light_at(day: Day) -> dict[str, str]:
    """By block key "day", "golden", "blue" or "night", as it is in the middle of the block.

    Empty where no place of the day is on the map yet.
    """
    sheet = next((sheet for sheet in day.light if sheet.events), None)
    if sheet is None or not day.blocks:
        return {}
    begins = min(block.start for block in day.blocks)
    ends = max(block.end for block in day.blocks)
    bands = light_bands(sheet.place.spot, begins, ends) if begins < ends else ()
    found = {}
    for block in day.blocks:
        middle = (block.start.timestamp() + block.end.timestamp()) / 2
        kinds = (b.kind for b in bands if b.start.timestamp() <= middle <= b.end.timestamp())
        found[block.key] = next(kinds, "")
    return found
