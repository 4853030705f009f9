"""The two of them are no more in two places than a photographer is."""

from __future__ import annotations

from itertools import product

from .chain import leg_between
from .planned import Block, Day
from .travel import planned_minutes
from .values import Brief, Place


def clashes(day: Day, brief: Brief) -> list[tuple[Block, Block]]:
    """Blocks of the two photographers that both need the couple at once, or sooner after each
    other than the couple get from one place to the other."""
    if day.second is None:
        return []
    own, others = ([b for b in each.blocks if b.couple] for each in (day, day.second))
    return [
        (a, b)
        for a, b in product(own, others)
        if a.key != b.key and not (_in_time(a, b, brief) or _in_time(b, a, brief))
    ]


def _in_time(one: Block, other: Block, brief: Brief) -> bool:
    """Whether the couple get from the one to the other."""
    way = between(brief, one.place, other.place)
    return one.end.timestamp() + 60 * way <= other.start.timestamp()


def between(brief: Brief, here: Place | None, there: Place | None) -> int:
    """Planned minutes of the couple's way; none where it is not known."""
    leg = None if None in (here, there) or here == there else leg_between(brief, here, there)
    return planned_minutes(leg.map_minutes) if leg else 0
