"""One page for whoever is in charge at a place: what happens there, and only there.

It is built from a list of what may stand on it: no guests, no phone but the photographer's, and
nothing of any other place.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.utils.translation import gettext_lazy as _

from planning.compute.planned import Block, Day, Plan
from planning.compute.values import Place
from planning.compute.wet import parting

from .subject import Reader, Subject

TIGHT, TIGHTER = 14, 20  # rows from which smaller ones are needed to stay on one page of A4
LETTERS = 160  # as long as a row is high
# Common practice, no source.
TO_SETTLE = (
    _("Where to park, and where to unload"),
    _("Which sockets may be used"),
    _("Who opens the door, and when it closes"),
    _("Where a bag can stand in sight of somebody"),
    _("When the room can be photographed before guests come in"),
    _("Candles, smoke, sparklers, drones: what is allowed, and who stands by"),
)


@dataclass(frozen=True)
class DayHere:
    """What happens at the place; `decide_by` is when fair or rain must be known there."""

    date: date
    title: str
    blocks: tuple[Block, ...]
    decide_by: datetime | None


@dataclass(frozen=True)
class AtPlace:
    """`groups` and `people` count who stands in the group photographs that are taken here."""

    place: str
    days: tuple[DayHere, ...]
    wet_plan: str
    not_allowed: str
    groups: int = 0
    people: int = 0


def in_charge(subject: Subject) -> list[Reader]:
    """One page for each place where anything happens, by the name of who is in charge there."""
    used = {b.place.key for day in subject.plan.days for b in day.blocks if b.place}
    return [Reader(p.key, _named(p)) for p in subject.brief.places if p.key in used]


def _named(place: Place) -> str:
    name = place.coordinator.name if place.coordinator else ""
    return f"{name}, {place.name}" if name else place.name


def coordinator(subject: Subject, reader: Reader) -> dict[str, Any]:
    studio, here = subject.studio, at_place(subject.plan, reader.key)
    rows = sum(len(day.blocks) + 3 for day in here.days)
    rows += (len(here.wet_plan) + len(here.not_allowed)) // LETTERS
    return {
        "here": here,
        "tight": "tighter" if rows > TIGHTER else "tight" if rows > TIGHT else "",
        "studio": (studio.name, studio.phone),
        "to_settle": TO_SETTLE,
    }


def at_place(plan: Plan, key: str) -> AtPlace:
    place = next(place for place in plan.brief.places if place.key == key)
    days = tuple(_day(day, key) for day in plan.days)
    days = tuple(day for day in days if day.blocks)
    here = any(block.kind == "groups" for day in days for block in day.blocks)
    turns = plan.turns if here else ()
    return AtPlace(
        place=place.name,
        days=days,
        wet_plan=place.wet_plan,
        not_allowed=place.not_allowed,
        groups=len(turns),
        people=max((len(t.group.people) + t.extra for t in turns), default=0),
    )


def _day(day: Day, key: str) -> DayHere:
    def at(block: Block) -> bool:
        return block.kind != "travel" and block.place is not None and block.place.key == key

    mine = tuple(block for block in day.blocks if at(block))
    moves = any(at(b) for b in day.wet.blocks) if day.wet else False
    parts = parting(day) if mine and moves else None
    return DayHere(day.brief.date, day.brief.title, mine, parts.decide_by if parts else None)
