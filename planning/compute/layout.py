"""Blocks on the clock: forward from every fixed time, and backward before the first one."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import pairwise

from .chain import Link, party_goes_on, route
from .clock import booked_hours, moment_time
from .planned import Block
from .values import Brief, DayBrief, Place


@dataclass(frozen=True, slots=True)
class Gap:
    """What is drafted between two fixed times takes `short_minutes` longer than there is."""

    after: Block
    before: Block
    between: tuple[Block, ...]
    short_minutes: int


@dataclass(slots=True)
class Layout:
    """A day being laid out; times are UTC until the day is finished. `links` go with `blocks`."""

    links: list[Link] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    shortfalls: list[Gap] = field(default_factory=list)
    unknown: tuple[tuple[Place | None, Place | None], ...] = ()
    ends: datetime | None = None

    @property
    def short_minutes(self) -> int:
        return sum(gap.short_minutes for gap in self.shortfalls)


def place(brief: Brief, day: DayBrief, chain: list[Link]) -> Layout:
    """Lay a chain out; an empty layout where neither a fixed time nor booked hours hold it."""
    links, unknown = route(party_goes_on(chain), brief)
    starts, ends = booked_hours(day, brief.zone)
    over = [moment_time(day, m, brief.zone) for m in day.moments if m.kind == "end" and m.at]
    layout = Layout(links, unknown=unknown, ends=ends or max(over, default=None))
    first = next((i for i, link in enumerate(links) if link.at and link.said), None)
    if first is None:
        begins = [at for at in (starts, links[0].opens if links else None) if at]
        if not links or not begins:
            return Layout()
        links[0] = replace(links[0], at=max(begins))
        first = 0
    _backward(layout, first)
    _forward(layout, first)
    return layout


def _block(link: Link, start: datetime, length: timedelta) -> Block:
    return Block(
        key=link.key,
        kind=link.template.kind,
        title=link.title,
        start=start,
        end=start + length,
        place=link.place,
        fixed=link.said and link.at == start,
        note=link.note,
    )


def _backward(layout: Layout, first: int) -> None:
    """Everything before the first fixed time ends just in time for what follows."""
    until = layout.links[first].at
    for link, following in reversed(list(pairwise(layout.links[: first + 1]))):
        length = timedelta(minutes=link.minutes)
        until -= timedelta(minutes=following.drive or 0)
        if link.until and link.until < until:
            until = link.until
            length = until - min(link.opens or until - length, until)
        until -= length
        layout.blocks.insert(0, _block(link, until, length))


def _forward(layout: Layout, first: int) -> None:
    now = layout.links[first].at
    anchor = first  # since this fixed time she has not waited
    for i, link in enumerate(layout.links[first:], first):
        if i > first:
            now += timedelta(minutes=link.drive or 0)
        start = _start(layout, i, now)
        if start < now:
            _note_shortfall(layout, anchor, link, now)
        if link.at == start:
            anchor = i
        length = _length(layout, i, start)
        layout.blocks.append(_block(link, start, length))
        now = start + length


def _start(layout: Layout, i: int, now: datetime) -> datetime:
    """Where a block starts: at its fixed time, or as late as what it leads to lets it wait."""
    link = layout.links[i]
    if link.at:
        return link.at if link.holds else max(now, link.at)
    now = max([now, *(at for at in (link.opens, link.wished) if at)])
    length = timedelta(minutes=link.minutes)
    if link.template.kind == "pack" and layout.ends:
        return max(now, layout.ends - length)
    if link.template.leads and i + 1 < len(layout.links) and layout.links[i + 1].at:
        drive = timedelta(minutes=layout.links[i + 1].drive or 0)
        return max(now, layout.links[i + 1].at - drive - length)
    return now


def _length(layout: Layout, i: int, start: datetime) -> timedelta:
    """A block's likely minutes; one that fills takes what is left, and gives way.

    Getting ready gives way too, as far as its shortest form.
    """
    link, nothing = layout.links[i], timedelta()
    likely = timedelta(minutes=link.minutes)
    gives_way = link.template.kind == "ready" and link.template.minutes[1] == link.minutes
    if not link.template.fills and not gives_way:
        return likely
    fills = link.template.fills
    needed, shared, until = nothing, False, layout.ends if fills else None
    for following in layout.links[i + 1 :]:
        needed += timedelta(minutes=following.drive or 0)
        if following.at and (fills or following.said):
            until = following.at
            break
        needed += timedelta(minutes=following.minutes)
        shared = shared or following.template.fills
    over = [at for at in (until and until - needed, link.until if fills else None) if at]
    if not over:
        return likely
    shared = shared or link.template.kind == "rest"
    room = max(nothing, min(over) - start)
    if not fills:
        return min(likely, max(room, timedelta(minutes=link.template.minutes[0])))
    return min(likely, room) if shared else room


def _note_shortfall(layout: Layout, anchor: int, link: Link, now: datetime) -> None:
    after, *between = layout.blocks[anchor:]
    short = round((now - link.at) / timedelta(minutes=1))
    before = _block(link, link.at, timedelta(minutes=link.minutes))
    layout.shortfalls.append(Gap(after, before, tuple(between), short))
