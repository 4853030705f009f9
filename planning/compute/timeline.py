"""When each block is: forward from every fixed time, and backward before the first one."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from .blocks import STYLES
from .chain import Link, build_chain, find_place, is_main, wall_time
from .travel import find_leg, planned_minutes
from .values import N_, Block, Brief, Day, DayBrief, Place, Shortfall, Turn

DRIVE_TITLE = N_("Drive to %(place)s")


@dataclass(slots=True)
class Layout:
    """A day being laid out; times are UTC until `finish`."""

    brief: Brief
    blocks: list[Block] = field(default_factory=list)
    shortfalls: list[Shortfall] = field(default_factory=list)
    unknown: list[tuple[Place | None, Place | None]] = field(default_factory=list)

    def drive(self, origin: Place | None, destination: Place | None) -> timedelta:
        """The planned drive between two places; None is home. Unknown drives are noted."""
        if destination is None or origin == destination:
            return timedelta()
        leg = find_leg(self.brief.legs, origin and origin.key, destination.key)
        if leg is None and (origin, destination) not in self.unknown:
            self.unknown.append((origin, destination))
        return timedelta(minutes=planned_minutes(leg.map_minutes) if leg else 0)

    def drive_between(self, before: Link, after: Link) -> timedelta:
        return self.drive(before.place, after.place) if before.place else timedelta()


def lay_out(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: tuple[datetime, datetime] | None = None,
) -> Day:
    """The first timeline of a day: template blocks around the couple's fixed times.

    `golden` is the evening's golden light (start, end) where the portraits are; the block for
    it is placed only where it comes after the meal and the speeches.
    """
    chain = build_chain(brief, day, turns)
    layout = _place(brief, day, chain)
    if golden and is_main(brief, day) and layout.blocks:
        chain = _with_golden(chain, layout, golden, brief, day)
        layout = _place(brief, day, chain)
    return _finish(layout, day)


def _with_golden(
    chain: list[Link],
    layout: Layout,
    golden: tuple[datetime, datetime],
    brief: Brief,
    day: DayBrief,
) -> list[Link]:
    template = next((b for b in STYLES[brief.style].blocks if b.kind == "golden"), None)
    if template is None:
        return chain
    length = timedelta(minutes=template.minutes[1])
    done = [b.end for b in layout.blocks if b.kind in {"meal", "speeches", "groups", "portraits"}]
    start = max([golden[0], *done])
    for block in layout.blocks:
        if block.fixed and block.start < start + length and start < block.end:
            start = block.end
    if start + timedelta(minutes=template.minutes[0]) > golden[1]:
        return chain
    at = min(start, max(golden[1] - length, start))
    place = find_place(brief, template.use)
    link = Link(f"{day.key}-golden", template, template.title, template.minutes[1], at, place)
    starts = {block.key: block.start for block in layout.blocks}
    i = next((i for i, each in enumerate(chain) if starts[each.key] >= at), len(chain))
    while i > 0 and _still_follows(chain[i - 1], starts, at):
        i -= 1
    return [*chain[:i], link, *chain[i:]]


def _still_follows(link: Link, starts: dict[str, datetime], at: datetime) -> bool:
    """Whether a free block that would run into the golden light can wait until after it."""
    free = link.at is None and link.template.kind in {"cake", "dance", "party"}
    return free and starts[link.key] + timedelta(minutes=link.minutes) > at


def _place(brief: Brief, day: DayBrief, chain: list[Link]) -> Layout:
    layout = Layout(brief)
    first = next((i for i, link in enumerate(chain) if link.at), None)
    if first is None:
        if day.starts is None or not chain:
            return layout  # nothing holds the day yet; a finding asks for the ceremony
        chain = [replace(chain[0], at=wall_time(day.date, day.starts, brief.zone)), *chain[1:]]
        first = 0
    _backward(layout, chain[: first + 1])
    _forward(layout, chain[first:], _end_of_hours(brief, day))
    return layout


def _end_of_hours(brief: Brief, day: DayBrief) -> datetime | None:
    return wall_time(day.date, day.ends, brief.zone, "end") if day.ends else None


def _block(link: Link, start: datetime, length: timedelta) -> Block:
    return Block(
        key=link.key,
        kind=link.template.kind,
        title=link.title,
        start=start,
        end=start + length,
        place=link.place,
        fixed=link.at is not None and link.template.kind != "golden",
        note=link.note,
    )


def _backward(layout: Layout, links: list[Link]) -> None:
    """Everything before the first fixed time ends just in time for what follows."""
    until = links[-1].at
    for link, following in reversed(list(itertools.pairwise(links))):
        until -= layout.drive_between(link, following)
        length = timedelta(minutes=link.minutes)
        until -= length
        layout.blocks.insert(0, _block(link, until, length))


def _forward(layout: Layout, links: list[Link], end_of_hours: datetime | None) -> None:
    now = links[0].at
    anchor: int | None = None
    for i, link in enumerate(links):
        if i:
            now += layout.drive_between(links[i - 1], link)
        if link.at:
            if now > link.at:
                _note_shortfall(layout, anchor, link, now)
            now = link.at
            anchor = len(layout.blocks)
        length = _length(layout, links, i, now, end_of_hours)
        layout.blocks.append(_block(link, now, length))
        now += length


def _length(
    layout: Layout, links: list[Link], i: int, now: datetime, end_of_hours: datetime | None
) -> timedelta:
    """A block's likely minutes; one that fills the gap gives way to what follows it."""
    likely = timedelta(minutes=links[i].minutes)
    if links[i].template.kind == "party" and end_of_hours:
        packing = timedelta(minutes=sum(link.minutes for link in links[i + 1 :]))
        shortest = timedelta(minutes=links[i].template.minutes[0])
        return max(shortest, end_of_hours - packing - now)
    if not links[i].template.fills or links[i].at:
        return likely
    needed = timedelta()
    for before, after in zip(links[i:], links[i + 1 :], strict=False):
        needed += layout.drive_between(before, after)
        if after.at:
            room = after.at - now - needed
            return max(timedelta(minutes=links[i].template.minutes[0]), min(likely, room))
        needed += timedelta(minutes=after.minutes)
    return likely


def _note_shortfall(layout: Layout, anchor: int | None, link: Link, now: datetime) -> None:
    if anchor is None:
        return
    after, *between = layout.blocks[anchor:]
    short = round((now - link.at).total_seconds() / 60)
    before = _block(link, link.at, timedelta(minutes=link.minutes))
    layout.shortfalls.append(Shortfall(after, before, tuple(between), short))


def _finish(layout: Layout, day: DayBrief) -> Day:
    """Drives become blocks of their own, and every time becomes local."""
    zone = ZoneInfo(layout.brief.zone)

    def local(block: Block) -> Block:
        return replace(block, start=block.start.astimezone(zone), end=block.end.astimezone(zone))

    blocks: list[Block] = []
    leave_home = None
    before: Place | None = None
    for block in layout.blocks:
        length = layout.drive(before, block.place)
        if length:
            start = block.start - length
            blocks.append(
                Block(f"drive-{block.key}", "travel", DRIVE_TITLE, start, block.start, block.place)
            )
            leave_home = start if before is None else leave_home
        blocks.append(block)
        before = block.place or before
    return Day(
        brief=day,
        blocks=tuple(map(local, blocks)),
        leave_home=leave_home.astimezone(zone) if leave_home else None,
        shortfalls=tuple(
            Shortfall(
                local(s.after), local(s.before), tuple(map(local, s.between)), s.short_minutes
            )
            for s in layout.shortfalls
        ),
        unknown_drives=tuple(layout.unknown),
    )
