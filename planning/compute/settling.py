"""The photographer's decisions meet the chain: minutes, times, places, order, own blocks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, time, timedelta

from .blocks import OTHER, template_for
from .chain import Link, usual_key
from .clock import SMALL_HOURS, instant
from .settled import ME, Settled
from .template import Template
from .values import Brief, DayBrief


def settle_all(links: list[Link], brief: Brief, day: DayBrief) -> tuple[list[Link], list[Link]]:
    """The links as they are settled with the photographer's own among them, and those left out."""
    found, gone = settle_each(links, brief, day)
    for own in (each for each in day.settled if each.kind):
        link = settle(own_link(own), own, brief, day)
        if own.left_out:
            gone.append(link)
        else:
            found.insert(_behind(found, own.follows), link)
    found = [link for link in found if not _leads_to_nothing(link, gone)]
    return with_leads_there(found, {each.key for each in day.settled if each.place}), gone


def settle_each(links: list[Link], brief: Brief, day: DayBrief) -> tuple[list[Link], list[Link]]:
    """The links as they are settled, and those that are left out.

    What was settled about a block of the template holds for the couple's moment that fills it.
    """
    by_key = {each.key: each for each in day.settled if not each.kind}
    found: list[Link] = []
    gone: list[Link] = []
    for link in links:
        settled = by_key.get(link.key) or by_key.get(usual_key(day, link.template))
        if settled is None:
            found.append(link)
        else:
            (gone if settled.left_out else found).append(settle(link, settled, brief, day))
    return found, gone


def with_leads_there(links: list[Link], apart: set[str]) -> list[Link]:
    """What leads to a block is where that is, but for those whose own place is settled."""
    places = {link.key: link.place for link in links}

    def there(link: Link) -> Link:
        place = places.get(link.key.removesuffix(f"-{link.template.kind}"))
        if not link.template.leads or link.key in apart or place is None:
            return link
        return replace(link, place=place)

    return [there(link) for link in links]


def _leads_to_nothing(link: Link, gone: list[Link]) -> bool:
    kind = link.template.leads
    return bool(kind) and any(link.key == f"{each.key}-{link.template.kind}" for each in gone)


def with_led(links: list[Link]) -> list[Link]:
    """What leads to a block that somebody else does is a block like any other."""
    keys = {link.key for link in links}

    def led(link: Link) -> bool:
        return link.key.removesuffix(f"-{link.template.kind}") in keys

    return [
        link if not link.template.leads or led(link) else _led_to_nothing(link) for link in links
    ]


def _led_to_nothing(link: Link) -> Link:
    return replace(link, template=replace(link.template, leads=""))


def _behind(links: list[Link], follows: str) -> int:
    """The place behind that block; behind all that happens there where it is gone."""
    keys = [link.key for link in links]
    if follows in keys:
        return keys.index(follows) + 1
    ends = (i for i, link in enumerate(links) if link.template.kind in {"pack", "night"})
    return next(ends, len(links))


def own_link(own: Settled) -> Link:
    """A block that is the photographer's own idea."""
    template = replace(template_for(own.kind), fills=False, leads="", moment="", once=False)
    if template.kind != own.kind:
        template = replace(OTHER, kind=own.kind)
    return Link(own.key, template, own.title or template.title, template.minutes[1])


def settle(link: Link, settled: Settled, brief: Brief, day: DayBrief) -> Link:
    """The link with what is settled about it."""
    template = _settled_template(link.template, settled)
    at = link.at
    if settled.at:
        at = clock_of(day, settled.at, brief.zone)
    elif settled.loose:
        at = None
    place = next((p for p in brief.places if settled.place and p.key == settled.place), None)
    return replace(
        link,
        template=template,
        title=settled.title or link.title,
        minutes=settled.minutes[1] if settled.minutes else link.minutes,
        at=at,
        place=place or link.place,
        said=bool(settled.at) or (link.said and not settled.loose),
        who=settled.who or ME,
        opens=settled.opens and clock_of(day, settled.opens, brief.zone),
        closes=settled.closes and clock_of(day, settled.closes, brief.zone, settled.opens),
        wished=settled.wished and clock_of(day, settled.wished, brief.zone),
        assumed=False,
    )


def _settled_template(template: Template, settled: Settled) -> Template:
    """With the figures that are settled; what has minutes of its own no longer gives way."""
    own = {
        name: getattr(settled, name)
        for name in ("short", "droppable", "importance", "movable")
        if getattr(settled, name) is not None
    }
    if settled.minutes:
        own |= {"minutes": settled.minutes, "fills": False}
        if (own.get("short") or template.short or 0) >= settled.minutes[1]:
            own["short"] = None
    return replace(template, **own)


def clock_of(day: DayBrief, at: time, zone: str, after: time | None = None) -> datetime:
    """The instant (UTC) of a time of the day or of the small hours after it; one that is earlier
    than `after` belongs to the night."""
    begins_early = day.starts is not None and day.starts <= at
    late = (at < SMALL_HOURS and not begins_early) or (after is not None and at < after)
    return instant(day.date + timedelta(days=late), at, zone)


def in_hand_order(links: list[Link], order: Iterable[str]) -> list[Link]:
    """The links as the photographer put them; fixed times stay in the order of the clock.

    A block that the order does not know stays behind the one it follows, and one that leads to
    another right before that.
    """
    wanted = {key: number for number, key in enumerate(order)}
    if not wanted:
        return links
    leads = {link.key: link for link in links if link.template.leads}
    places: list[tuple[float, int, Link]] = []
    last = -1.0
    for number, link in enumerate(each for each in links if each.key not in leads):
        last = wanted.get(link.key, last)
        places.append((last, number, link))
    moved = [link for *_, link in sorted(places, key=lambda each: each[:2])]
    fixed = sorted((link for link in moved if link.at), key=lambda link: link.at)
    by_clock = iter(fixed)
    clocked = [next(by_clock) if link.at else link for link in moved]
    found: list[Link] = []
    for link in clocked:
        found += [each for key, each in leads.items() if key.startswith(f"{link.key}-")]
        found.append(link)
    return found
