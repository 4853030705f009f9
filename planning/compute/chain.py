"""Which blocks a day has, in which order and where: the template meets the couple's moments."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from .blocks import NIGHT, blocks_of, template_for
from .clock import moment_time
from .groups import block_minutes
from .planned import Turn
from .settled import ME
from .template import Template
from .travel import find_leg, planned_minutes
from .values import (
    HOME,
    Brief,
    DayBrief,
    Leg,
    Moment,
    Place,
)

# Free blocks that come after every fixed time before them in the template, whatever the order.
AFTER_ALL = {"cake", "dance", "party", "pack", "night"}
# Blocks that nobody can photograph without the two of them.
COUPLE = {
    "ceremony",
    "confetti",
    "groups",
    "portraits",
    "golden",
    "meal",
    "speeches",
    "cake",
    "dance",
}
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
    """A block before it has its time.

    `at` is UTC and set where the time is fixed; `drive` is the planned minutes on the way to it
    (None: nobody has timed the drive), from home where it is the first. `said` marks a time that
    the couple or the photographer set. Instants are UTC: it starts no earlier than `opens`, ends
    by `closes`, and is `wished` where the photographer would have it. What fills is over at
    `until` where what comes next is somebody else's. `assumed` marks what only the template says.
    """

    key: str
    template: Template
    title: str
    minutes: int
    at: datetime | None = None
    place: Place | None = None
    note: str = ""
    said: bool = False
    drive: int | None = 0
    who: str = ME
    opens: datetime | None = None
    closes: datetime | None = None
    wished: datetime | None = None
    until: datetime | None = None
    assumed: bool = False

    @property
    def holds(self) -> bool:
        """Whether others wait at its fixed time, so that we cannot be late for it."""
        return self.at is not None and not self.template.fills

    @property
    def couple(self) -> bool:
        """Whether it needs the two of them: what they told us of does, whatever it is."""
        other = self.template.kind == "other" and self.template.moment == "other"
        return self.template.kind in COUPLE or (other and self.said)


def build_chain(brief: Brief, day: DayBrief, turns: tuple[Turn, ...]) -> list[Link]:
    """The day's blocks as the template has them, golden light left out (the sun places it)."""
    main = is_main(brief, day)
    templates = with_night(blocks_of(brief), brief)
    links: list[Link] = []
    for template in templates:
        if template.leads or template.kind == "golden":
            continue
        if template.kind == "pack":
            links += _left_over(templates, brief, day)
        lead = next((t for t in templates if t.leads == template.kind), None)
        for link in _links(template, brief, day, turns, main):
            if lead:
                key = f"{link.key}-{lead.kind}"
                lead_link = Link(key, lead, lead.title, lead.minutes[1], place=link.place)
                links.append(replace(lead_link, assumed=True))
            links.append(link)
    return links


def with_night(templates: tuple[Template, ...], brief: Brief) -> tuple[Template, ...]:
    """Between two days the batteries are charged and the copies looked at, whatever the kind."""
    if len(brief.days) < 2 or any(template.kind == "night" for template in templates):
        return templates
    return (*templates, NIGHT)


def is_main(brief: Brief, day: DayBrief) -> bool:
    """The day with a ceremony and most moments is the one that has the groups and portraits."""
    return day == max(brief.days, key=lambda d: (_has_ceremony(d), len(d.moments)))


def _has_ceremony(day: DayBrief) -> bool:
    return any(moment.kind == "ceremony" for moment in day.moments)


def _left_over(templates: tuple[Template, ...], brief: Brief, day: DayBrief) -> Iterator[Link]:
    """Moments that the style has no block for; without a time there is nowhere to put them."""
    known = {template.moment for template in templates} | {"end"}
    for moment in day.moments:
        if moment.kind not in known and moment.at:
            yield _link(template_for(moment.kind), brief, day, moment)


def _links(
    template: Template, brief: Brief, day: DayBrief, turns: tuple[Turn, ...], main: bool
) -> list[Link]:
    moments = [m for m in day.moments if template.moment and m.kind == template.moment]
    if moments:
        links = [_link(template, brief, day, moment) for moment in moments]
        return sorted(links, key=lambda k: (k.at is None, k.at.timestamp() if k.at else 0))
    if not main and (template.moment or template.once):
        return []  # of a second day we know only what the couple say happens on it
    if template.kind in {"ceremony", "confetti"} and day.moments and not _has_ceremony(day):
        return []  # they told us about the day, and there is no ceremony in it
    minutes = block_minutes(turns) if template.kind == "groups" else template.minutes[1]
    if not minutes:
        return []
    return [Link(usual_key(day, template), template, template.title, minutes, assumed=True)]


def usual_key(day: DayBrief, template: Template) -> str:
    """The key of a block that no moment of the couple's has fixed."""
    return f"{day.key}-{template.key or template.kind}"


def _link(template: Template, brief: Brief, day: DayBrief, moment: Moment) -> Link:
    return Link(
        key=moment.key,
        template=template,
        title=moment.title or template.title,
        minutes=template.minutes[1],
        at=moment_time(day, moment, brief.zone),
        place=next((p for p in brief.places if p.key == moment.place), None),
        note=moment.note,
        said=True,
    )


def in_order(links: list[Link]) -> list[Link]:
    """Fixed times by the clock; every other block behind a fixed one that it follows.

    That is the one before it in the template, and for the evening the latest of them: where the
    speeches come before the meal, the party still comes after both.
    """
    fixed = sorted((i for i, link in enumerate(links) if link.at), key=lambda i: links[i].at)
    leading: list[Link] = []
    ahead: dict[int, list[Link]] = {i: [] for i in fixed}
    behind: dict[int, list[Link]] = {i: [] for i in fixed}
    nearest: int | None = None
    latest = -1
    for i, link in enumerate(links):
        if link.at:
            nearest, latest = i, i if latest < 0 or link.at >= links[latest].at else latest
        elif link.template.leads and i + 1 in ahead:
            ahead[i + 1].append(link)
        elif nearest is None:
            leading.append(link)
        else:
            behind[latest if link.template.kind in AFTER_ALL else nearest].append(link)
    return leading + [link for i in fixed for link in (*ahead[i], links[i], *behind[i])]


def party_goes_on(links: list[Link]) -> list[Link]:
    """A party that something fixed interrupts goes on after it."""
    parties = [i for i, link in enumerate(links) if link.template.kind == "party"]
    rest = [link for link in links[parties[-1] + 1 :] if link.holds] if parties else []
    if not rest:
        return links
    i = next((i for i, link in enumerate(links) if link.template.kind == "pack"), len(links))
    return [*links[:i], go_on(links[parties[-1]]), *links[i:]]


def go_on(link: Link) -> Link:
    """The rest of a block after what interrupts it: as long as there is time for it."""
    return replace(link, key=f"{link.key}-on", at=None, note="", minutes=0, said=False)


def route(
    links: list[Link], brief: Brief
) -> tuple[list[Link], tuple[tuple[Place | None, Place | None], ...]]:
    """The links with their places and the drives to them, and the drives nobody has timed."""
    routed: list[Link] = []
    unknown: dict[tuple[Place | None, Place | None], None] = {}
    here: Place | None = None
    for i, link in enumerate(with_places(links, brief)):
        drive: int | None = 0
        if link.place and link.place != here and (here or i == 0):
            leg = leg_between(brief, here, link.place)
            drive = planned_minutes(leg.map_minutes) if leg else None
            if leg is None:
                unknown[_or_home(here), _or_home(link.place)] = None
        routed.append(replace(link, drive=drive))
        here = link.place or here
    return routed, tuple(unknown)


def _or_home(place: Place | None) -> Place | None:
    return None if place == HOME else place


def leg_between(brief: Brief, here: Place | None, there: Place | None) -> Leg | None:
    """The drive between two places of the wedding; None and HOME are home."""
    ends = (None if place in {None, HOME} else place.key for place in (here, there))
    return find_leg(brief.legs, *ends)


def with_places(links: list[Link], brief: Brief) -> list[Link]:
    placed: list[Link] = []
    before: Place | None = None
    for link in links:
        use = link.template.use
        place = link.place or (before if use == "previous" else find_place(brief, use))
        before = place or before
        placed.append(replace(link, place=place))
    for i in reversed(range(len(placed) - 1)):
        use, nowhere = placed[i].template.use, placed[i].place is None
        if use == "next" or (use == "previous" and nowhere):  # nothing is before it
            placed[i] = replace(placed[i], place=placed[i + 1].place)
    return placed


def find_place(brief: Brief, use: str) -> Place | None:
    """The place the couple list for a use, or the likeliest; an only place serves for all."""
    if use == "home":
        return HOME
    for wanted in FALL_BACK.get(use, ()):
        for place in brief.places:
            if wanted in place.uses:
                return place
    return brief.places[0] if len(brief.places) == 1 and use in FALL_BACK else None
