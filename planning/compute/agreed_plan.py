"""A plan becomes what is agreed: what the couple can check, and what they may expect."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import datetime

from .agreed import (
    Agreed,
    AgreedDay,
    AgreedGroup,
    AgreedLight,
    AgreedNote,
    AgreedPlace,
    AgreedRoom,
    AgreedTime,
    AgreedWish,
    Spoken,
)
from .clock import to_minute
from .expectations import room_for_groups
from .planned import Block, Day, LightSheet, Plan, Turn
from .values import HOME, N_
from .wet import parting

# The photographer's own work, which the couple have no part in.
NOT_THEIRS = {"travel", "setup", "rest", "pack", "night"}
# As the couple would say it, where a template speaks to the photographer.
TO_THEM = {
    "Meal (eat something too)": N_("Meal"),
    "Portraits of the two": N_("Portraits of the two of you"),
    "Golden light, the two of them": N_("Golden light, the two of you"),
}
# Chances are told as the highest of these hundredths that is reached; own choice.
STEPS = (99, 95, 90, 75, 50, 25)
HOLDS = {"fits": "holds", "risky": "holds", "unknown": "unknown", "": ""}


def agreed_of(plan: Plan, spoken: Spoken, notes: Iterable[AgreedNote] = ()) -> Agreed:
    brief = plan.brief
    return Agreed(
        names=tuple(partner.name for partner in brief.partners),
        zone=brief.zone,
        days=tuple(_day(day) for day in plan.days),
        places=tuple(
            AgreedPlace(p.key, p.name, p.address, p.wet_plan, p.not_allowed) for p in brief.places
        ),
        times=tuple(_time(day, b) for day in plan.days for b in day.blocks if _is_theirs(b)),
        lights=tuple(_light(day, sheet) for day in plan.days for sheet in _sheets(day)),
        groups=tuple(_group(turn) for turn in plan.turns),
        room=_room(plan),
        wishes=tuple(AgreedWish(m.key or m.text, m.text, m.kind) for m in brief.must_haves),
        spoken=spoken,
        notes=tuple(notes),
    )


def _is_theirs(block: Block) -> bool:
    return block.kind not in NOT_THEIRS


def _day(day: Day) -> AgreedDay:
    brief, parts = day.brief, parting(day)
    return AgreedDay(
        key=brief.key,
        date=brief.date.isoformat(),
        title=brief.title,
        starts=f"{brief.starts:%H:%M}" if brief.starts else "",
        ends=f"{brief.ends:%H:%M}" if brief.ends else "",
        holds=HOLDS.get(day.verdict, "short"),
        decide_by=_iso(parts.decide_by) if parts else "",
    )


def _time(day: Day, block: Block) -> AgreedTime:
    chance = next((kept.chance for kept in day.promises if kept.block.key == block.key), None)
    return AgreedTime(
        key=block.key,
        day=day.brief.key,
        kind=block.kind,
        title=TO_THEM.get(block.title, block.title),
        at=_iso(block.start),
        until=_iso(block.end),
        fixed=block.fixed,
        place="" if block.place in (None, HOME) else block.place.name,
        sure=None if chance is None else sure(chance),
    )


def sure(chance: float) -> int:
    """The highest step that a chance (0 to 1) reaches; 0 where it reaches none."""
    return next((step for step in STEPS if chance * 100 >= step), 0)


def _sheets(day: Day) -> list[LightSheet]:
    """The light where the two of them are photographed, else at the first place that has any."""
    known = [sheet for sheet in day.light if sheet.events]
    there = {b.place for b in day.blocks if b.kind == "portraits"}
    return ([sheet for sheet in known if sheet.place in there] or known)[:1]


def _light(day: Day, sheet: LightSheet) -> AgreedLight:
    def when(kind: str) -> str:
        event = sheet.first(kind)
        return _iso(event.at) if event and event.at else ""

    sunset, golden = when("sunset"), when("golden_evening_start")
    return AgreedLight(day.brief.key, sheet.place.name, sunset, golden if sunset else "")


def _group(turn: Turn) -> AgreedGroup:
    group = turn.group
    return AgreedGroup(
        group.key,
        group.title,
        turn.own_minutes,
        group.must,
        group.people,
        group.extra,
        group.everyone,
    )


def _room(plan: Plan) -> AgreedRoom:
    takes = math.ceil(plan.group_minutes)
    room = room_for_groups(plan.brief, plan.days) if plan.turns else None
    if room is None:
        return AgreedRoom(takes, None, "", "")
    before = TO_THEM.get(room.before.title, room.before.title)
    return AgreedRoom(takes, room.minutes, before, _iso(room.before.start))


def _iso(at: datetime) -> str:
    return to_minute(at).isoformat(timespec="minutes")
