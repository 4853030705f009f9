"""A day that does not fit: each conflict of the network as a sum over its blocks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from .layout import Layout
from .network import Conflict, Hours
from .planned import Block, Shortfall


def shortfalls_of(
    conflicts: tuple[Conflict, ...], hours: Hours, blocks: Mapping[str, Block]
) -> Iterator[Shortfall]:
    """Each conflict with its blocks, in the order of the day."""
    for conflict in conflicts:
        took = [term for term in conflict.terms if term.kind == "block"]
        yield Shortfall(
            after=None if conflict.first.kind == "day" else blocks.get(conflict.first.key),
            before=blocks.get(conflict.last.key),
            between=tuple(blocks[term.key] for term in took if term.minutes),
            short_minutes=conflict.short_by,
            starts=hours.at(conflict.first.at),
            until=hours.at(conflict.last.at),
            holds=(conflict.first.kind, conflict.last.kind),
            drives=sum(term.minutes for term in conflict.terms if term.kind == "drive"),
            repairs=conflict.repairs,
        )


def as_it_would_run(layout: Layout, hours: Hours) -> list[tuple[int, int]]:
    """Start and end of each block of the draft, in minutes since 00:00 of the day."""
    begins = hours.instant(0, 0, 0).timestamp()
    return [
        (round((b.start.timestamp() - begins) / 60), round((b.end.timestamp() - begins) / 60))
        for b in layout.blocks
    ]
