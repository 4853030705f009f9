"""The table of contents of the product: a brief goes in, a plan comes out."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import lru_cache

from .bag.check import check_bag
from .bag.need import need_of
from .chain import find_place
from .findings import find_all
from .groups import order_groups, with_clock
from .light import Skyline, light_sheet, sun_events, sunlit_stretches
from .light.hours import FIRST_YEAR, LAST_YEAR
from .planned import (
    Day,
    LightSheet,
    Plan,
    Turn,
)
from .sequence import choose_order
from .timeline import lay_out
from .values import Brief, DayBrief, Place
from .visit import plan_visit

MINUTE = timedelta(minutes=1)


@lru_cache(maxsize=16)
def plan_wedding(brief: Brief) -> Plan:
    """Plan every day of a wedding; nothing in the plan is stored, so nothing can be stale.

    The same brief is planned once: whoever acts on a page and looks at the next one does not wait.
    """
    order = choose_order(brief)
    turns = order_groups(brief, order)
    days = tuple(plan_day(brief, day, turns) for day in brief.days)
    block = next((b for day in days for b in day.blocks if b.kind == "groups"), None)
    turns = with_clock(turns, block) if block else turns
    need = need_of(days, brief.kit, brief.pace, brief.cold, brief.shots)
    plan = Plan(
        brief=brief,
        days=days,
        turns=turns,
        order=order,
        visit=plan_visit(brief, days),
        bag=check_bag(brief.kit, need) if brief.kit else None,
    )
    return replace(plan, findings=tuple(find_all(plan)))


def plan_day(brief: Brief, day: DayBrief, turns: tuple[Turn, ...]) -> Day:
    """One day's light and timeline; a date beyond 1900 to 2199 is a slip, and has neither."""
    if not FIRST_YEAR <= day.date.year <= LAST_YEAR:
        return Day(day, light=tuple(LightSheet(place) for place in brief.places))
    laid = lay_out(brief, day, turns, golden_evening(brief, day))
    used = {block.place for block in laid.blocks}
    places = [place for place in brief.places if place in used]
    if not any(place.spot for place in places):
        places = brief.places  # the next best there is
    sheets = (light_sheet(place, brief.zone, day.date, laid.blocks) for place in places)
    return replace(laid, light=tuple(sheets))


def golden_evening(brief: Brief, day: DayBrief) -> tuple[datetime, datetime] | None:
    """The golden light before sunset where the portraits are, in whole minutes (UTC) inside it.

    The evening runs from noon to noon: in the far north the sun may set after midnight, and
    where it does not set at all the light is golden until it has climbed again. A skyline may
    hide the sun earlier: then the longest stretch of it, or None where it hides all.
    """
    place = _lit_place(brief)
    if place is None:
        return None
    events = sun_events(place.spot, brief.zone, day.date, evening=True)
    passes = {event.kind: event.at.astimezone(UTC) for event in reversed(events) if event.at}
    start = passes.get("golden_evening_start")
    end = passes.get("sunset") or passes.get("golden_morning_end")
    if start is None or end is None or end <= start:
        return None
    if place.skyline:
        lit = sunlit_stretches(place.spot, Skyline.noted(place.skyline), start, end)
        start, end = max(lit, key=lambda each: each[1] - each[0], default=(end, end))
    start, end = _whole(start + MINUTE - timedelta.resolution), _whole(end)
    return (start, end) if start < end else None


def _lit_place(brief: Brief) -> Place | None:
    place = find_place(brief, "portraits")
    if place and place.spot:
        return place
    return next((place for place in brief.places if place.spot), None)


def _whole(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0)
