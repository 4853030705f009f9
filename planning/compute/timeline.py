"""The first timeline of a day, with room for golden light."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from .blocks import blocks_of
from .chain import Link, build_chain, find_place, go_on, is_main
from .clock import booked_hours
from .layout import Layout, place
from .planned import (
    Block,
    Day,
    Shortfall,
    Turn,
)
from .values import N_, Brief, DayBrief

# Nobody slips out of these for the light; everybody can slip out of those.
BUSY = {"arrivals", "ceremony", "confetti", "meal_call", "meal", "speeches"}
FILLERS = {"drinks", "party"}
BETWEEN = {"other", "cake", "dance"}  # short moments that groups and portraits can wait for
FREE = {"groups", "portraits", "details", "drinks"}
DRIVE_TITLE = N_("Drive to %(place)s")


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
    layout = place(brief, day, chain)
    starts = booked_hours(day, brief.zone)[0]
    early = {b.key for b in layout.blocks if starts and b.start < starts}
    if any(_only_ours(link) and link.key in early for link in chain):
        chain = [link for link in chain if not _only_ours(link)]
        layout = place(brief, day, chain)
    chain, layout = _let_through(brief, day, chain, layout)
    if golden and layout.blocks and is_main(brief, day):
        layout = _with_golden(brief, day, chain, layout, golden)
    return _finish(layout, day, ZoneInfo(brief.zone))


def _let_through(
    brief: Brief, day: DayBrief, chain: list[Link], layout: Layout
) -> tuple[list[Link], Layout]:
    """What does not fit before a short moment in between, like an early cake, goes on after it."""
    best, tried = (chain, layout), list(chain)
    while best[1].short_minutes:
        late = {gap.before.key for gap in best[1].shortfalls if gap.before.kind in BETWEEN}
        pairs = enumerate(pairwise(tried))
        i = next((i for i, (a, b) in pairs if b.key in late and a.template.kind in FREE), None)
        if i is None or tried[i].at:
            break
        tried = [*tried[:i], tried[i + 1], tried[i], *tried[i + 2 :]]
        fresh = place(brief, day, tried)
        if fresh.short_minutes < best[1].short_minutes:
            best = (tried, fresh)
    return best


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
    template = next((b for b in blocks_of(brief) if b.kind == "golden"), None)
    if template is None:
        return layout
    shortest, likely = (timedelta(minutes=m) for m in template.minutes[:2])
    portraits = [b for b in layout.blocks if b.kind == "portraits"]
    if any(min(b.end, golden[1]) - max(b.start, golden[0]) >= shortest for b in portraits):
        return layout  # they have it already
    start = max([golden[0], *(b.end for b in layout.blocks if b.kind in {"groups", "portraits"})])
    until = min(golden[1], layout.ends or golden[1])
    held = [b for b in layout.blocks if b.kind in BUSY or (b.fixed and b.kind not in FILLERS)]
    where = find_place(brief, template.use)
    while start + shortest <= until:
        busy = next((b for b in held if b.start < start + shortest and start < b.end), None)
        if busy:
            start = busy.end
            continue
        end = min([start + likely, until, *(b.start for b in held if b.start >= start)])
        minutes = int((end - start) / timedelta(minutes=1))
        link = Link(f"{day.key}-golden", template, template.title, minutes, start, where)
        tried = place(brief, day, _insert(chain, layout, link))
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
