"""The draft of a day: which block follows which, with room for golden light, and how it would run
if everything took its likely minutes. The network places the blocks of a day that fits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from .blocks import blocks_of
from .chain import Link, build_chain, find_place, go_on, in_order, is_main
from .clock import booked_hours
from .layout import Layout, place
from .planned import Block, Turn
from .settling import in_hand_order, settle_all, settle_each, with_led
from .values import Brief, DayBrief

# Nobody slips out of these for the light; everybody can slip out of those.
BUSY = {"arrivals", "ceremony", "confetti", "meal_call", "meal", "speeches"}
FILLERS = {"drinks", "party"}
BETWEEN = {"other", "cake", "dance"}  # short moments that groups and portraits can wait for
FREE = {"groups", "portraits", "details", "drinks"}


@dataclass(frozen=True, slots=True)
class Draft:
    """`layout` is how the day would run; `gone` are the blocks that are left out."""

    layout: Layout
    gone: tuple[Link, ...] = ()


Change = Callable[[list[Link]], list[Link]]


def draft(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: tuple[datetime, datetime] | None = None,
    change: Change = list,
    away: tuple[Block, ...] = (),
) -> Draft:
    """Template blocks around the fixed times; `change` is what becomes of them first, `away` what
    somebody else does with the couple.

    `golden` is the evening's golden light (start, end) where the portraits are. Its block comes
    after groups and portraits, in the drinks or between meal and party, and makes nothing late.
    """
    links, gone = settle_all(build_chain(brief, day, turns), brief, day)
    chain = in_hand_order(in_order(with_led(change(links))), day.order)
    layout = place(brief, day, chain)
    starts = booked_hours(day, brief.zone)[0]
    early = {b.key for b in layout.blocks if starts and b.start < starts}
    if any(_only_ours(link) and link.key in early for link in chain):
        chain = [link for link in chain if not _only_ours(link)]
        layout = place(brief, day, chain)
    if not day.order:
        chain, layout = _let_through(brief, day, chain, layout)
    if golden and layout.blocks and is_main(brief, day):
        lit, dark = settle_each(_golden(brief, day), brief, day)
        for link in lit:
            layout = _with_golden(brief, day, chain, layout, golden, link, away)
        gone += dark
    return Draft(layout, tuple(gone))


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
    return link.template.kind == "ready" and link.assumed


def golden_key(day: DayBrief) -> str:
    return f"{day.key}-golden"


def _golden(brief: Brief, day: DayBrief) -> list[Link]:
    """The block for golden light, where the template has one."""
    blocks = [b for b in blocks_of(brief) if b.kind == "golden"]
    key = golden_key(day)
    return [Link(key, each, each.title, each.minutes[1], assumed=True) for each in blocks[:1]]


def _with_golden(
    brief: Brief,
    day: DayBrief,
    chain: list[Link],
    layout: Layout,
    golden: tuple[datetime, datetime],
    link: Link,
    away: tuple[Block, ...] = (),
) -> Layout:
    """The layout with golden light in it, or as it was where there is no room for any."""
    template = link.template
    link = replace(link, place=link.place or find_place(brief, template.use))
    if link.said:
        return place(brief, day, _insert(chain, layout, link))
    shortest, likely = (timedelta(minutes=m) for m in template.minutes[:2])
    portraits = [b for b in layout.blocks if b.kind == "portraits"]
    if any(min(b.end, golden[1]) - max(b.start, golden[0]) >= shortest for b in portraits):
        return layout  # they have it already
    start = max([golden[0], *(b.end for b in layout.blocks if b.kind in {"groups", "portraits"})])
    until = min(golden[1], layout.ends or golden[1])
    held = [b for b in layout.blocks if b.kind in BUSY or (b.fixed and b.kind not in FILLERS)]
    held += [replace(b, start=b.start.astimezone(UTC), end=b.end.astimezone(UTC)) for b in away]
    while start + shortest <= until:
        busy = next((b for b in held if b.start < start + shortest and start < b.end), None)
        if busy:
            start = busy.end
            continue
        end = min([start + likely, until, *(b.start for b in held if b.start >= start)])
        minutes = int((end - start) / timedelta(minutes=1))
        timed = replace(link, minutes=minutes, at=start, opens=golden[0], closes=golden[1])
        tried = place(brief, day, _insert(chain, layout, timed))
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
