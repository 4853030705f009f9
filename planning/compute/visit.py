"""The venue visit: on which days, and at what time, the sun stands as it will at a block."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from .light import (
    VisitMatch,
    match_visit,
    same_altitude,
    same_azimuth,
    sun_then,
    visit_days,
)
from .light.sky import Direction, separation
from .planned import Block, Day, Visit
from .values import Brief, Place

# Ours: near enough for a like sun and like leaves, and not in the wedding's own last week.
FIRST, LAST = 21, 7
# Portraits first: nobody chooses their light but the photographer.
WANTED = ("portraits", "groups", "golden", "ceremony")


@dataclass(frozen=True, slots=True)
class Candidate:
    """A day of a visit: the nearest sun, and the two other matches where they make sense.

    `best` marks the day of the window on which the sun comes nearest.
    """

    day: date
    match: VisitMatch
    same_way: VisitMatch | None
    same_height: VisitMatch | None
    best: bool = False


def window_days(wedding: date, today: date) -> tuple[date, ...]:
    """The days three weeks to one week before a wedding that are not over yet."""
    days = (wedding - timedelta(days=n) for n in range(FIRST, LAST - 1, -1))
    return tuple(day for day in days if day >= today)


def candidates(
    place: Place, zone: str, wanted: datetime, window: Sequence[date], others: Iterable[date] = ()
) -> tuple[Candidate, ...]:
    """Every day of the window and the others, in order; `place` has a spot, `wanted` is aware."""
    spot = place.spot
    ranked = visit_days(spot, zone, wanted, window)
    best = ranked[0].at.date() if ranked else None
    return tuple(
        Candidate(
            day,
            match_visit(spot, zone, wanted, day),
            same_azimuth(spot, zone, wanted, day),
            same_altitude(spot, zone, wanted, day),
            day == best and day in window,
        )
        for day in sorted({*window, *others})
    )


def middle(block: Block) -> datetime:
    """Half-way through a block, whatever the clocks do meanwhile."""
    half = (block.start.timestamp() + block.end.timestamp()) / 2
    return datetime.fromtimestamp(half, block.start.tzinfo)


def block_of(days: Sequence[Day], key: str) -> Block | None:
    """The block of that key that is somewhere; None once it is gone."""
    blocks = (b for day in days for b in day.blocks if b.kind != "travel" and b.place)
    return next((block for block in blocks if block.key == key), None)


def visited_block(days: Sequence[Day], key: str = "") -> Block | None:
    """The block of that key, or else the one whose light matters most, if its place has a spot."""
    lit = [b for day in days for b in day.blocks if b.kind != "travel" and b.place and b.place.spot]
    by_kind = {block.kind: block for block in reversed(lit)}
    usual = (by_kind[kind] for kind in WANTED if kind in by_kind)
    return block_of(days, key) or next(usual, lit[0] if lit else None)


def plan_visit(brief: Brief, days: Sequence[Day]) -> Visit | None:
    """The visit that is set, with the sun then and on the day as far as they can be known."""
    if brief.visit_at is None:
        return None
    places = {place.key: place for place in brief.places}
    only = brief.places[0] if len(brief.places) == 1 else None
    place = places.get(brief.visit_place, only)
    # Nobody says what a visit is for where it was set by hand.
    block = block_of(days, brief.visit_block) if brief.visit_block else None
    if place is None or place.spot is None:
        return Visit(brief.visit_at, place, block)
    there = sun_then(place, brief.visit_at)
    if block is None:
        return Visit(brief.visit_at, place, None, there)
    wanted = sun_then(place, middle(block))
    apart = separation(*(Direction(t.sun.altitude, t.sun.azimuth) for t in (there, wanted)))
    return Visit(brief.visit_at, place, block, there, wanted, apart)
