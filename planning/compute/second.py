"""The second photographer: a chain of their own, with its own drives; nobody in two places.

The couple are no more in two places than a photographer is: what needs them waits until what comes
before it is over, whoever photographs that.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations

from .chain import Link, find_place, in_order, with_places
from .clock import later
from .draft import FILLERS, Change, draft
from .fillers import as_for_guests
from .network import Block as Asked
from .placing import ALONE, Others, plan
from .planned import Block, Day, Turn
from .settled import BOTH, EITHER, SECOND
from .settling import in_hand_order
from .together import between, clashes
from .values import Brief, DayBrief, Leg

MOST_EITHER = 4  # above this, only all of them together are tried
ROUNDS = 3  # in which the two wait for each other; what still clashes is told
RANK = ["fits", "risky", "unknown", "does not fit", "impossible", ""]
Golden = tuple[datetime, datetime] | None


def plan_both(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: Golden,
    change: Change,
    given: frozenset[str],
    links: list[Link],
) -> Day:
    """The photographer's day without what is `given` away, beside the second photographer's.

    `links` are the day's, settled and changed; where hers wait for the couple, she is planned
    once more.
    """
    if given or has_second(links):
        there = _where_the_couple_are(brief, day)
        change, links = then(change, there), there(links)
    own = draft(brief, day, turns, golden, then(change, hers(day, given)))
    found = plan(brief, day, turns, own)
    if not (given or has_second([*links, *own.layout.links])):
        return found
    lit = _posts([link for link in own.layout.links if link.who == SECOND], found)
    dark = _after_light(own.layout.links, lit, found)
    ordered = in_hand_order(in_order(links), day.order)
    waiting = _waiting(ordered, given)
    both = [link for link in own.layout.links if link.who == BOTH and link.key not in waiting]
    second = _second(brief, day, turns, change, given, found, _posts(both, found) + lit)
    waits: dict[str, datetime] = {}
    in_light = not lit and any(
        own.kind == "golden" for own, _ in clashes(replace(found, second=second), brief)
    )
    for _round in range(ROUNDS if waiting or lit or in_light else 0):
        before, waits = waits, _later_of(dark, _waits(brief, waiting, second))
        if waits == before and _round:
            break
        away = tuple(block for block in second.blocks if block.couple)
        light = None if lit else golden
        own = draft(brief, day, turns, light, then(change, hers(day, given, waits, second)), away)
        found = plan(brief, day, turns, own, _others(ordered, given, second, own.layout.links))
        both = [link for link in own.layout.links if link.who == BOTH]
        second = _second(brief, day, turns, change, given, found, _posts(both, found) + lit)
    return replace(found, second=second)


def _after_light(links: list[Link], lit: list[Link], found: Day) -> dict[str, datetime]:
    """Until when what comes after golden light waits, where that is somebody else's."""
    ends = [found.block(post.key).end.astimezone(UTC) for post in lit if found.block(post.key)]
    keys = {post.key for post in lit}
    first = next((i for i, link in enumerate(links) if link.key in keys), len(links))
    return {link.key: ends[0] for link in links[first:] if ends and link.couple and not link.at}


def _later_of(one: Mapping[str, datetime], other: Mapping[str, datetime]) -> dict[str, datetime]:
    return {k: max(at[k] for at in (one, other) if k in at) for k in {**one, **other}}


def _second(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    change: Change,
    given: frozenset[str],
    found: Day,
    posts: list[Link],
) -> Day:
    others = then(change, theirs(brief, day, given, found, posts))
    brief = without_home(brief)
    return plan(brief, day, turns, draft(brief, day, turns, None, others))


def _where_the_couple_are(brief: Brief, day: DayBrief) -> Change:
    """What needs the couple where they were before is there, whoever photographed that."""

    def change(links: list[Link]) -> list[Link]:
        ordered = with_places(in_hand_order(in_order(links), day.order), brief)
        places = {link.key: link.place for link in ordered if link.couple}
        return [replace(link, place=link.place or places.get(link.key)) for link in links]

    return change


def then(first: Change, second: Change) -> Change:
    return lambda links: second(first(links))


def worst(day: Day, brief: Brief) -> int:
    """How badly a day of one or two photographers holds, for comparison; 0 where it fits."""
    days = [day, day.second] if day.second and day.second.blocks else [day]
    found = max(RANK.index(each.verdict) for each in days)
    return max(found, RANK.index("does not fit")) if clashes(day, brief) else found


def hers(
    day: DayBrief,
    given: frozenset[str] = frozenset(),
    waits: Mapping[str, datetime] | None = None,
    second: Day | None = None,
) -> Change:
    """The photographer's own links; those `given` away are the second photographer's. `waits`
    are until when (UTC) some wait for the couple."""
    until = waits or {}
    blocks = {block.key: block for block in second.blocks} if second else {}

    def change(links: list[Link]) -> list[Link]:
        ordered = in_hand_order(in_order(links), day.order)
        own = [link for link in links if not _theirs(link, given)]
        keys = {link.key for link in own}
        return [_no_earlier(as_for_guests(e, ordered, keys, blocks), until.get(e.key)) for e in own]

    return change


def _theirs(link: Link, given: frozenset[str]) -> bool:
    return link.who == SECOND or link.key in given


def _no_earlier(link: Link, at: datetime | None) -> Link:
    return link if at is None else replace(link, opens=max(at, link.opens or at))


def theirs(
    brief: Brief, day: DayBrief, given: frozenset[str], found: Day, posts: list[Link]
) -> Change:
    """The second photographer's links; what both do is when the first plan has it."""
    blocks = {block.key: block for block in found.blocks}

    def change(links: list[Link]) -> list[Link]:
        ordered = in_hand_order(in_order(links), day.order)
        fixed = {post.key: post for post in posts}
        keys = {link.key for link in links if _theirs(link, given)} | set(fixed)
        own = [
            fixed.pop(link.key, None)
            or _with_room(as_for_guests(link, ordered, keys, blocks), ordered, blocks, brief)
            for link in links
            if link.key in keys
        ]
        return own + list(fixed.values())

    return change


def _posts(links: list[Link], found: Day) -> list[Link]:
    """The links as fixed times, where the plan has them."""
    blocks = {block.key: block for block in found.blocks}
    return [
        replace(
            link,
            at=blocks[link.key].start.astimezone(UTC),
            said=True,
            minutes=blocks[link.key].minutes,
            template=replace(link.template, fills=False, leads="", movable=True),
        )
        for link in links
        if link.key in blocks
    ]


def _with_room(link: Link, ordered: list[Link], blocks: Mapping[str, Block], brief: Brief) -> Link:
    """A free block waits for the fixed time it follows, though somebody else is there; one that
    needs the couple also waits for them, and leaves them in time for the next fixed one."""
    if link.at:
        return link
    i = next(i for i, each in enumerate(ordered) if each.key == link.key)
    before = [e for e in ordered[:i] if e.key in blocks]
    after = [e for e in ordered[i + 1 :] if e.key in blocks and e.couple and link.couple]
    kind = link.template.kind
    opens = [blocks[e.key].end for e in before if e.at or kind == "party"][-1:]
    opens = [] if link.opens else opens
    if link.couple:
        opens += [later(blocks[e.key].end, _way(brief, e, link)) for e in before if e.couple]
    closes = [later(blocks[e.key].start, -_way(brief, link, e)) for e in after if e.at][:1]
    link = _no_earlier(link, max((at.astimezone(UTC) for at in opens), default=None))
    if closes:
        link = replace(link, closes=min(closes[0].astimezone(UTC), link.closes or closes[0]))
    awaited = after and not after[0].at  # somebody waits until it is done
    if (awaited or kind in FILLERS) and not link.wished:
        link = replace(link, wished=link.opens)
    return link


def _waiting(ordered: list[Link], given: frozenset[str]) -> dict[str, tuple[Link, list[Link]]]:
    """Each free block of hers that needs the couple, and what the second does with them first."""
    found: dict[str, tuple[Link, list[Link]]] = {}
    before: list[Link] = []
    for link in ordered:
        if link.couple and _theirs(link, given):
            before = [*before, link]
        elif link.couple and before and not link.at:
            found[link.key] = link, before
    return found


def _waits(
    brief: Brief, waiting: Mapping[str, tuple[Link, list[Link]]], second: Day
) -> dict[str, datetime]:
    """Until when (UTC) each of them waits."""
    done = {block.key: block for block in second.blocks}
    found = {}
    for key, (link, before) in waiting.items():
        until = [later(done[e.key].end, _way(brief, e, link)) for e in before if e.key in done]
        if until:
            found[key] = max(until).astimezone(UTC)
    return found


def _others(ordered: list[Link], given: frozenset[str], second: Day, hers: list[Link]) -> Others:
    """What the second does with the couple before a block of hers, as that waits for it."""
    if second.problem is None or second.answer is None:
        return ALONE
    asked = {block.key: block for block in second.problem.blocks}
    shown = {block.key: block for block in second.blocks}
    starts = {one.key: one.start for one in second.answer.planned}
    place = {link.key: i for i, link in enumerate(hers)}
    last = -1  # how far her own order has come: nothing before that waits for what comes after it
    found: dict[str, Asked] = {}
    waits: dict[str, tuple[str, ...]] = {}
    ours = theirs = ""
    for link in (each for each in ordered if each.couple):
        if _theirs(link, given) and link.key in shown:
            after = tuple(key for key in (ours, theirs) if key)
            found[link.key] = _beside(asked[link.key], after, starts[link.key])
            theirs = link.key
        elif link.key in place:
            if theirs and not link.at and place[link.key] > last:
                waits[link.key] = (theirs,)
            ours, last = link.key, max(last, place[link.key])
    return Others(tuple(found.values()), tuple(shown[key] for key in found), waits)


def _beside(block: Asked, after: tuple[str, ...], start: int | None) -> Asked:
    """Somebody else's block in her network: it takes its time, and nobody cuts it for her."""
    free = replace(block, photographer=False, fixed=None, window=None, start_delay=None)
    return replace(free, after=after, wished=start, short=None, droppable=False)


def _way(brief: Brief, one: Link, other: Link) -> int:
    """Planned minutes of the couple's way; none where it is not known."""
    here, there = (link.place or find_place(brief, link.template.use) for link in (one, other))
    return between(brief, here, there)


def without_home(brief: Brief) -> Brief:
    """Nobody knows where the second photographer's day begins: it begins where they are needed."""
    between = [leg for leg in brief.legs if leg.origin and leg.destination]
    begins = [Leg(None, place.key, 0) for place in brief.places]
    return replace(brief, legs=(*between, *begins))


def has_second(links: list[Link]) -> bool:
    return any(link.who in {SECOND, BOTH} for link in links)


def ways_to_share(links: list[Link]) -> Iterator[frozenset[str]]:
    """Which blocks that either could do go to the second photographer: none, one, all."""
    either = [link.key for link in links if link.who == EITHER]
    yield frozenset()
    if either:
        for number in range(1, len(either) + 1):
            if number in {1, len(either)} or len(either) <= MOST_EITHER:
                yield from map(frozenset, combinations(either, number))
