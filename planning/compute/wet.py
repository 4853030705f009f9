"""The day when it rains: drives and groups take longer, some blocks move, shrink or go."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import datetime

from .blocks import NOTHING
from .chain import Link, usual_key
from .clock import later
from .draft import Change
from .planned import Block, Day
from .settled import Settled, Wet
from .settling import with_leads_there
from .values import Brief, DayBrief, Leg

# Own choices, no source: wet roads, and people who must be found indoors.
DRIVES, GROUPS = 1.2, 1.25
MOVED = 10  # minutes; a block that begins so much earlier or later has another plan: own choice


@dataclass(frozen=True, slots=True)
class Parting:
    """The first block that is another one when it rains (as it is when it is fair, where it is
    there then), `at` the earlier of its two starts, and when to decide at the latest."""

    block: Block
    at: datetime
    decide_by: datetime


def on_wet_roads(brief: Brief) -> Brief:
    """The wedding with every drive as long as it is in rain."""
    legs = (Leg(a.origin, a.destination, math.ceil(DRIVES * a.map_minutes)) for a in brief.legs)
    return replace(brief, legs=tuple(legs))


def in_rain(brief: Brief, day: DayBrief) -> Change:
    """What becomes of a day's links when it rains."""
    settled = {each.key: each for each in day.settled}

    def change(links: list[Link]) -> list[Link]:
        wet = (_wet(link, settled_for(link, day, settled), brief) for link in links)
        apart = {each.key for each in day.settled if each.place or each.wet.place}
        return with_leads_there([link for link in wet if link is not None], apart)

    return change


def settled_for(link: Link, day: DayBrief, settled: dict[str, Settled]) -> Settled | None:
    return settled.get(link.key) or settled.get(usual_key(day, link.template))


def _wet(link: Link, settled: Settled | None, brief: Brief) -> Link | None:
    wet = settled.wet if settled else Wet()
    minutes = wet.minutes
    if minutes is None and not (settled and settled.minutes):
        minutes = link.template.wet
    if wet.left_out or minutes == NOTHING:
        return None
    place = next((p for p in brief.places if wet.place and p.key == wet.place), link.place)
    if minutes:
        template = replace(link.template, minutes=minutes, fills=False)
        return replace(link, place=place, template=template, minutes=minutes[1])
    longer = GROUPS if link.template.kind == "groups" and not (settled and settled.minutes) else 1
    return replace(link, place=place, minutes=math.ceil(longer * link.minutes))


def keeps_golden(template_wet: tuple[int, int, int] | None, key: str, day: DayBrief) -> bool:
    """Whether anybody goes out for golden light in the rain."""
    settled = next((each for each in day.settled if each.key == key), None)
    wet = settled.wet if settled else Wet()
    return not wet.left_out and (wet.minutes is not None or template_wet != NOTHING)


def parting(day: Day) -> Parting | None:
    """Where the fair plan and the wet one part: another place, another length, or not at all."""
    if day.wet is None:
        return None
    fair, wet = ({b.key: b for b in _of_both(each)} for each in (day, day.wet))
    pairs = [(fair.get(key), wet.get(key)) for key in {**fair, **wet}]
    part = [min((each for each in pair if each), key=_instant) for pair in pairs if _parts(*pair)]
    if not part:
        return None
    first = min(part, key=_instant)
    decide_by = later(first.start, -day.brief.notice_minutes)
    return Parting(fair.get(first.key, first), first.start, decide_by)


def _of_both(day: Day) -> tuple[Block, ...]:
    """Her blocks and the second photographer's."""
    return (*(day.second.blocks if day.second else ()), *day.blocks)


def _instant(block: Block) -> float:
    return block.start.timestamp()


def _parts(fair: Block | None, wet: Block | None) -> bool:
    """Whether a block is another one in the rain: elsewhere, longer or shorter, at another time,
    or on one side only. Drinks and party are as long as there is time, getting ready gives way,
    and what ends the day ends it whenever: that is no other plan."""
    one = fair or wet
    if one is None or one.kind == "travel":
        return False
    fills = one.kind in {"drinks", "party", "ready", "rest", "pack", "night"}
    if fair is None or wet is None:
        return not fills
    if fair.place != wet.place:
        return True
    moved = abs(_instant(fair) - _instant(wet)) >= 60 * MOVED
    return not fills and (moved or fair.minutes != wet.minutes)
