"""The table of contents of the product: a brief goes in, a plan comes out."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from .chain import find_place
from .findings import find_all
from .groups import order_groups
from .light import sun_events
from .timeline import lay_out
from .values import Brief, Day, DayBrief, LightSheet, Plan, Turn


def plan_wedding(brief: Brief) -> Plan:
    """Plan every day of a wedding; nothing in the plan is stored, so nothing can be stale."""
    turns = order_groups(brief)
    days = tuple(plan_day(brief, day, turns) for day in brief.days)
    plan = Plan(brief=brief, days=days, turns=_with_clock(turns, days))
    return replace(plan, findings=tuple(find_all(plan)))


def plan_day(brief: Brief, day: DayBrief, turns: tuple[Turn, ...]) -> Day:
    sheets = tuple(
        LightSheet(place, sun_events(place.spot, brief.zone, day.date) if place.spot else ())
        for place in brief.places
    )
    return replace(lay_out(brief, day, turns, _golden_evening(brief, sheets)), light=sheets)


def _golden_evening(
    brief: Brief, sheets: tuple[LightSheet, ...]
) -> tuple[datetime, datetime] | None:
    where = find_place(brief, "portraits")
    sheet = next((s for s in sheets if s.place == where and s.events), None)
    sheet = sheet or next((s for s in sheets if s.events), None)
    if sheet is None:
        return None
    start, end = sheet.first("golden_evening_start"), sheet.first("sunset")
    return (start.at, end.at) if start and end and start.at and end.at else None


def _with_clock(turns: tuple[Turn, ...], days: tuple[Day, ...]) -> tuple[Turn, ...]:
    """Each group's minute on the clock, from the block the groups have in the day."""
    blocks = [block for day in days for block in day.blocks if block.kind == "groups"]
    if not blocks:
        return turns
    clocked = []
    # The block's calling minutes come first, then one photograph after another.
    now = blocks[0].end - timedelta(minutes=sum(turn.minutes for turn in turns))
    for turn in turns:
        clocked.append(replace(turn, starts=now))
        now += timedelta(minutes=turn.minutes)
    return tuple(clocked)
