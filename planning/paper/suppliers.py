"""The day for everybody else who works there: what the couple know of it too, and where.

It is built from a list of what may stand on it: no guests, and no phone but the photographer's.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from planning.compute.agreed_plan import NOT_THEIRS
from planning.compute.planned import Block, Day

from .subject import Reader, Subject


@dataclass(frozen=True)
class WorkDay:
    date: date
    title: str
    blocks: tuple[Block, ...]


def suppliers(subject: Subject, reader: Reader) -> dict[str, Any]:
    """Each place once with its address, in the order in which it is needed."""
    days = [day for day in map(_day, subject.plan.days) if day.blocks]
    needed = (b.place for day in days for b in day.blocks if b.place and b.place.key)
    places = [(place.name, place.address) for place in dict.fromkeys(needed)]
    studio = subject.studio
    return {"days": days, "places": places, "studio": (studio.name, studio.phone)}


def has_shared_blocks(subject: Subject) -> bool:
    return any(_day(day).blocks for day in subject.plan.days)


def _day(day: Day) -> WorkDay:
    """Without the photographer's own work."""
    blocks = tuple(block for block in day.blocks if block.kind not in NOT_THEIRS)
    return WorkDay(day.brief.date, day.brief.title, blocks)
