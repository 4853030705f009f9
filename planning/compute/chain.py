"""Which blocks a day has, in which order and where: the template meets the couple's moments."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from .blocks import STYLES, Template
from .groups import block_minutes
from .values import Brief, DayBrief, Moment, Place, Turn

SMALL_HOURS = time(5)  # a party "at 00:30" belongs to the evening before
LATE_KINDS = {"dance", "party", "cake", "end", "other", "speeches"}
OTHER = Template("other", "", (10, 15, 30), "previous", "other")
# Where a block is when the couple names no place for it: the first of these that they list.
FALL_BACK = {
    "getting_ready": ("getting_ready",),
    "ceremony": ("ceremony",),
    "groups": ("groups", "meal", "ceremony"),
    "portraits": ("portraits", "groups", "meal", "ceremony"),
    "meal": ("meal", "party", "ceremony"),
    "party": ("party", "meal", "ceremony"),
}


@dataclass(frozen=True, slots=True)
class Link:
    """A block before it has its time; `at` is UTC and set where the time is fixed."""

    key: str
    template: Template
    title: str
    minutes: int
    at: datetime | None = None
    place: Place | None = None
    note: str = ""


def wall_time(day: date, at: time, zone: str, kind: str = "") -> datetime:
    """The instant (UTC) of a clock time of that day; small hours of a party come after it."""
    late = kind in LATE_KINDS and at < SMALL_HOURS
    local = datetime.combine(day + timedelta(days=late), at, ZoneInfo(zone))
    return local.astimezone(UTC)


def build_chain(brief: Brief, day: DayBrief, turns: tuple[Turn, ...]) -> list[Link]:
    """The day's blocks in order, golden light left out (it is placed by the sun)."""
    main = is_main(brief, day)
    links: list[Link] = []
    for template in STYLES[brief.style].blocks:
        if template.kind == "golden" or (template.once and not main):
            continue
        links += _links(template, brief, day, turns, main)
    links += [_link(OTHER, brief, day, m) for m in day.moments if m.kind == "other" and m.at]
    return _with_places(_in_order(links), brief)


def is_main(brief: Brief, day: DayBrief) -> bool:
    """The day with most moments is the one that has the groups and portraits."""
    return day is max(brief.days, key=lambda d: len(d.moments))


def _links(
    template: Template, brief: Brief, day: DayBrief, turns: tuple[Turn, ...], main: bool
) -> list[Link]:
    moments = [m for m in day.moments if template.moment and m.kind == template.moment]
    if moments:
        return [_link(template, brief, day, m) for m in moments]
    if template.moment and not main:
        return []  # of a second day we know only what the couple say happens on it
    minutes = block_minutes(turns) if template.kind == "groups" else template.minutes[1]
    if not minutes:
        return []
    return [Link(f"{day.key}-{template.kind}", template, template.title, minutes)]


def _link(template: Template, brief: Brief, day: DayBrief, moment: Moment) -> Link:
    at = wall_time(day.date, moment.at, brief.zone, moment.kind) if moment.at else None
    place = next((p for p in brief.places if p.key == moment.place), None)
    title = moment.title or template.title
    return Link(moment.key, template, title, template.minutes[1], at, place, moment.note)


def _in_order(links: list[Link]) -> list[Link]:
    """Fixed times in their own order; every other block stays behind the one it follows."""
    leading: list[Link] = []
    followers: dict[str, list[Link]] = {}
    last_fixed = ""
    for link in links:
        if link.at:
            last_fixed = link.key
            followers.setdefault(last_fixed, [])
        elif last_fixed:
            followers[last_fixed].append(link)
        else:
            leading.append(link)
    fixed = sorted((link for link in links if link.at), key=lambda link: link.at)
    return leading + [each for link in fixed for each in (link, *followers[link.key])]


def _with_places(links: list[Link], brief: Brief) -> list[Link]:
    placed: list[Link] = []
    before: Place | None = None
    for link in links:
        use = link.template.use
        place = link.place or (before if use == "previous" else find_place(brief, use))
        before = place or before
        placed.append(replace(link, place=place))
    following: Place | None = None
    for i in reversed(range(len(placed))):
        if placed[i].template.use == "next" and not placed[i].place:
            placed[i] = replace(placed[i], place=following)
        following = placed[i].place or following
    return placed


def find_place(brief: Brief, use: str) -> Place | None:
    """The place the couple list for a use, or the likeliest of the others."""
    for wanted in FALL_BACK.get(use, ()):
        for place in brief.places:
            if wanted in place.uses:
                return place
    return None
