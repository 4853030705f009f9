"""When each block is: forward from every fixed time, and backward before the first one."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from .blocks import style_of
from .chain import Link, build_chain, find_place, go_on, is_main, party_goes_on, route
from .clock import booked_hours, moment_time
from .values import N_, Block, Brief, Day, DayBrief, Place, Shortfall, Turn

# Nobody slips out of these for the light; everybody can slip out of those.
BUSY = {"arrivals", "ceremony", "confetti", "meal_call", "meal", "speeches"}
FILLERS = {"drinks", "party"}
DRIVE_TITLE = N_("Drive to %(place)s")


@dataclass(slots=True)
class Layout:
    """A day being laid out; times are UTC until `_finish`. `links` go with `blocks`."""

    links: list[Link] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    shortfalls: list[Shortfall] = field(default_factory=list)
    unknown: tuple[tuple[Place | None, Place | None], ...] = ()
    ends: datetime | None = None

    @property
    def short_minutes(self) -> int:
        return sum(gap.short_minutes for gap in self.shortfalls)


def lay_out(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: tuple[datetime, datetime] | None = None,
) -> Day:
    """The first timeline of a day: template blocks around the couple's fixed times.

    `golden` is the evening's golden light (start, end) where the portraits are. Its block comes
    after groups and portraits, in the drinks or between meal and party, and makes nothing late.
    """
    chain = build_chain(brief, day, turns)
    layout = _place(brief, day, chain)
    starts = booked_hours(day, brief.zone)[0]
    early = {b.key for b in layout.blocks if starts and b.start < starts}
    if any(_only_ours(link) and link.key in early for link in chain):
        chain = [link for link in chain if not _only_ours(link)]
        layout = _place(brief, day, chain)
    if golden and layout.blocks and is_main(brief, day):
        layout = _with_golden(brief, day, chain, layout, golden)
    return _finish(layout, day, ZoneInfo(brief.zone))


def _only_ours(link: Link) -> bool:
    """Getting ready that nobody asked for: it goes where it would begin before booked hours."""
    return link.template.kind == "ready" and not link.said


def _with_golden(
    brief: Brief,
    day: DayBrief,
    chain: list[Link],
    layout: Layout,
    golden: tuple[datetime, datetime],
) -> Layout:
    """The layout with golden light in it, or as it was where there is no room for any."""
    template = next((b for b in style_of(brief.style).blocks if b.kind == "golden"), None)
    if template is None:
        return layout
    shortest, likely = (timedelta(minutes=m) for m in template.minutes[:2])
    portraits = [b for b in layout.blocks if b.kind == "portraits"]
    if any(min(b.end, golden[1]) - max(b.start, golden[0]) >= shortest for b in portraits):
        return layout  # they have it already
    start = max([golden[0], *(b.end for b in layout.blocks if b.kind in {"groups", "portraits"})])
    until = min(golden[1], layout.ends or golden[1])
    held = [b for b in layout.blocks if b.kind in BUSY or (b.fixed and b.kind not in FILLERS)]
    place = find_place(brief, template.use)
    while start + shortest <= until:
        busy = next((b for b in held if b.start < start + shortest and start < b.end), None)
        if busy:
            start = busy.end
            continue
        end = min([start + likely, until, *(b.start for b in held if b.start >= start)])
        minutes = int((end - start) / timedelta(minutes=1))
        link = Link(f"{day.key}-golden", template, template.title, minutes, start, place)
        tried = _place(brief, day, _insert(chain, layout, link))
        late = tried.short_minutes - layout.short_minutes
        if late <= 0:
            return tried
        start += timedelta(minutes=late)
    return layout


def _insert(chain: list[Link], layout: Layout, link: Link) -> list[Link]:
    """The chain with a link at its time: free cake or dance waits for it, drinks go on after it."""
    blocks = {block.key: block for block in layout.blocks}
    i = next((i for i, each in enumerate(chain) if blocks[each.key].start >= link.at), len(chain))
    while i > 0:
        before = blocks[chain[i - 1].key]
        if before.fixed or before.kind not in {"cake", "dance"} or before.end <= link.at:
            break
        i -= 1
    rest = [go_on(each) for each in chain[i - 1 : i] if each.template.fills]
    return [*chain[:i], link, *rest, *chain[i:]]


def _place(brief: Brief, day: DayBrief, chain: list[Link]) -> Layout:
    links, unknown = route(party_goes_on(chain), brief)
    starts, ends = booked_hours(day, brief.zone)
    over = [moment_time(day, m, brief.zone) for m in day.moments if m.kind == "end" and m.at]
    layout = Layout(links, unknown=unknown, ends=ends or max(over, default=None))
    first = next((i for i, link in enumerate(links) if link.at and link.said), None)
    if first is None:
        if starts is None or not links:
            return Layout()  # nothing holds the day yet; a finding says so
        links[0] = replace(links[0], at=starts)
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
        until -= timedelta(minutes=following.drive or 0) + length
        layout.blocks.insert(0, _block(link, until, length))


def _forward(layout: Layout, first: int) -> None:
    now = layout.links[first].at
    anchor = first  # since here she has not waited
    for i, link in enumerate(layout.links[first:], first):
        if i > first:
            now += timedelta(minutes=link.drive or 0)
        start = _start(layout, i, now)
        if start < now:
            _note_shortfall(layout, anchor, link, now)
        if start != now or link.at == start:
            anchor = i
        length = _length(layout, i, start)
        layout.blocks.append(_block(link, start, length))
        now = start + length


def _start(layout: Layout, i: int, now: datetime) -> datetime:
    """Where a block starts: at its fixed time, or as late as what it leads to lets it wait."""
    link = layout.links[i]
    if link.at:
        return link.at if link.holds else max(now, link.at)
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
    if not link.template.fills and link.template.kind != "ready":
        return likely
    needed, shared, until = nothing, False, layout.ends
    for following in layout.links[i + 1 :]:
        needed += timedelta(minutes=following.drive or 0)
        if following.at:
            until = following.at
            break
        needed += timedelta(minutes=following.minutes)
        shared = shared or following.template.fills
    if until is None:
        return likely
    room = max(nothing, until - start - needed)
    if not link.template.fills:
        return min(likely, max(room, timedelta(minutes=link.template.minutes[0])))
    return min(likely, room) if shared else room


def _note_shortfall(layout: Layout, anchor: int, link: Link, now: datetime) -> None:
    after, *between = layout.blocks[anchor:]
    short = round((now - link.at) / timedelta(minutes=1))
    before = _block(link, link.at, timedelta(minutes=link.minutes))
    layout.shortfalls.append(Shortfall(after, before, tuple(between), short))


def _finish(layout: Layout, day: DayBrief, zone: ZoneInfo) -> Day:
    """Drives become blocks of their own, what has no length goes, and times become local."""

    def local(block: Block) -> Block:
        return replace(block, start=block.start.astimezone(zone), end=block.end.astimezone(zone))

    blocks: list[Block] = []
    for link, block in zip(layout.links, layout.blocks, strict=True):
        if link.drive:
            start = block.start - timedelta(minutes=link.drive)
            key = f"drive-{block.key}"
            blocks.append(Block(key, "travel", DRIVE_TITLE, start, block.start, block.place))
        if block.end > block.start:
            blocks.append(block)
    from_home = layout.links and layout.links[0].place and layout.links[0].drive is not None
    gaps = (
        Shortfall(local(g.after), local(g.before), tuple(map(local, g.between)), g.short_minutes)
        for g in layout.shortfalls
    )
    return Day(
        brief=day,
        blocks=tuple(map(local, blocks)),
        leave_home=blocks[0].start.astimezone(zone) if from_home and blocks else None,
        shortfalls=tuple(gaps),
        unknown_drives=layout.unknown,
    )
