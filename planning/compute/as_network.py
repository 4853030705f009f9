"""A drafted day as a problem of the network: every block with its law, times, place and weight."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from .chain import Link
from .groups import block_minutes
from .layout import Layout
from .network import Block, Hours, Law, Problem
from .network.placement import FIXED_HURTS
from .planned import Turn
from .values import HOME, Brief, DayBrief, Leg

HOME_KEY = "home"
NIGHT_LONG = 47 * 60  # no block of a day ends later
# Groups by how long they can take: common practice, no source.
GROUPS_LEAST, GROUPS_MOST = 0.7, 1.6


def hours_of(brief: Brief, day: DayBrief) -> Hours:
    return Hours(day.date, ZoneInfo(brief.zone))


def minute_of(hours: Hours, at: datetime) -> int:
    """Minutes that pass between 00:00 of the day and an instant."""
    return round((at - hours.instant(0, 0, 0)) / timedelta(minutes=1))


def problem_of(layout: Layout, brief: Brief, day: DayBrief, turns: tuple[Turn, ...]) -> Problem:
    """The draft as statements; the order of its blocks is one of them."""
    hours = hours_of(brief, day)
    blocks = tuple(
        _block(layout, i, hours, turns, after=(layout.links[i - 1].key,) if i else ())
        for i in range(len(layout.links))
    )
    legs = tuple(
        Leg(leg.origin or HOME_KEY, leg.destination or HOME_KEY, leg.map_minutes)
        for leg in brief.legs
    )
    from_home = bool(layout.links) and layout.links[0].drive is not None
    return Problem(hours, blocks, legs, HOME_KEY if from_home else None, day.wanted)


def in_any_light(problem: Problem) -> Problem:
    """The same day with golden light as a wish only."""
    blocks = (replace(b, window=None) if b.kind == "golden" else b for b in problem.blocks)
    return replace(problem, blocks=tuple(blocks))


def _block(
    layout: Layout, i: int, hours: Hours, turns: tuple[Turn, ...], after: tuple[str, ...]
) -> Block:
    link, drafted = layout.links[i], layout.blocks[i]
    template, law = link.template, law_of(layout, i)
    fixed = link.at is not None and link.said and link.holds
    wished = link.wished or (drafted.start if _where_it_is(layout, i) else None)
    short = template.short
    if template.kind == "groups" and short is None:
        short = block_minutes(turn for turn in turns if turn.group.must) or None
    return Block(
        key=link.key,
        law=law,
        title=link.title,
        kind=template.kind,
        fixed=minute_of(hours, link.at) if fixed and link.at else None,
        window=_window(link, hours, fixed),
        after=after,
        place=_place(link),
        start_delay=Law(*template.delay) if fixed and template.delay else None,
        short=short if short is not None and short < law.likely else None,
        droppable=template.droppable,
        importance=_importance(layout, i),
        movable=template.movable,
        wished=minute_of(hours, wished) if wished and not fixed else None,
    )


def _importance(layout: Layout, i: int) -> float:
    """Being late for what leads to a fixed time is being late for that."""
    template = layout.links[i].template
    if template.leads and _where_it_is(layout, i):
        return FIXED_HURTS * layout.links[i + 1].template.importance
    return template.importance


def _place(link: Link) -> str | None:
    """A night at home is nowhere while nobody has timed the way there: it makes nothing late."""
    if link.place == HOME:
        return None if link.drive is None else HOME_KEY
    return link.place.key if link.place else None


def law_of(layout: Layout, i: int) -> Law:
    """How long a block takes. What fills takes no time of its own where something ends it; what
    ends when the next thing begins, or when she goes, takes just what was drafted."""
    link, drafted = layout.links[i], layout.blocks[i]
    template = link.template
    if template.fills and template.kind != "rest" and is_ended(layout, i):
        return Law(0, 0, 0)
    sure = template.fills or template.leads or template.kind in {"ready", "golden", "pack"}
    if sure:
        return Law(drafted.minutes, drafted.minutes, drafted.minutes)
    if template.kind == "groups" and template.minutes[2] == 0:
        least, most = GROUPS_LEAST * link.minutes, GROUPS_MOST * link.minutes
        return Law(math.floor(least), link.minutes, math.ceil(most))
    least, _likely, most = template.minutes
    return Law(min(least, link.minutes), link.minutes, max(most, link.minutes))


def is_ended(layout: Layout, i: int) -> bool:
    """Whether a fixed time, or the end of the booked hours, comes after a block."""
    if layout.links[i].until:
        return True
    return layout.ends is not None or any(link.at for link in layout.links[i + 1 :])


def _where_it_is(layout: Layout, i: int) -> bool:
    """Whether a block has its place in the draft: it begins when the one before it ends, ends when
    the next or the day does, stands in the golden light, or has nothing behind it to be late for.
    """
    link = layout.links[i]
    later = [each for each in layout.links[i + 1 :] if each.at and each.holds]
    if link.template.kind == "golden":
        return link.at is not None
    if link.template.leads:
        return i + 1 < len(layout.links) and layout.links[i + 1].at is not None
    return link.template.kind == "confetti" or not later


def _window(link: Link, hours: Hours, fixed: bool) -> tuple[int, int] | None:
    if fixed:
        return None
    opens = link.at if not link.holds or not link.said else None
    opens = link.opens or opens
    if opens is None and link.closes is None:
        return None
    first = minute_of(hours, opens) if opens else 0
    last = minute_of(hours, link.closes) if link.closes else NIGHT_LONG
    return first, last
