"""The second photographer's sheet: their own part of the days, and nothing private.

It is built from a list of what may stand on it, so that a new field of a plan is not on it by
itself: no care notes, no words of the couple's but titles, no phones but the photographer's and
those of who is in charge of a place.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from .compute.groups import with_clock
from .compute.planned import Block, Day, Plan, Turn
from .compute.values import Contact, Place
from .sides import Side, sides


@dataclass(frozen=True)
class SheetPlace:
    name: str
    address: str
    at: str
    in_charge: Contact | None
    not_allowed: str


@dataclass(frozen=True)
class SheetDay:
    date: date
    title: str
    blocks: tuple[Block, ...]
    rain: list[Side]


@dataclass(frozen=True)
class Sheet:
    """`turns` are there only where the groups are theirs, or both photographers'."""

    names: str
    days: list[SheetDay]
    places: list[SheetPlace]
    turns: tuple[Turn, ...]


def has_second(plan: Plan) -> bool:
    return any(day.second and day.second.blocks for day in plan.days)


def second_sheet(plan: Plan) -> Sheet:
    seconds = [day.second for day in plan.days if day.second and day.second.blocks]
    blocks = [block for second in seconds for block in second.blocks]
    groups = next((block for block in blocks if block.kind == "groups"), None)
    return Sheet(
        names=plan.brief.names,
        days=[_day(day) for day in plan.days if day.second and day.second.blocks],
        places=[_place(place) for place in _places(blocks)],
        turns=with_clock(plan.turns, groups) if groups else (),
    )


def _day(day: Day) -> SheetDay:
    wet = day.wet.second if day.wet else None
    both = sides(replace(day.second, wet=wet))
    rain = [side for side in both if side.differs and (side.fair or side.wet).kind != "travel"]
    return SheetDay(day.brief.date, day.brief.title, day.second.blocks, rain)


def _places(blocks: list[Block]) -> list[Place]:
    """Each place once, in the order of their day."""
    return list(dict.fromkeys(b.place for b in blocks if b.place is not None and b.place.key))


def _place(place: Place) -> SheetPlace:
    spot = place.spot
    known = place.coordinator
    return SheetPlace(
        name=place.name,
        address=place.address,
        at=f"{spot.latitude:.5f}, {spot.longitude:.5f}" if spot else "",
        in_charge=Contact(known.name, phone=known.phone) if known else None,
        not_allowed=place.not_allowed,
    )
