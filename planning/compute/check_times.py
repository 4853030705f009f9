"""Checks of the plan itself: times, drives, light and what does not fit."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from .check_light import begins_after_sunset
from .clock import booked_hours, clock_quirk, moment_time
from .light.hours import FIRST_YEAR, LAST_YEAR
from .planned import (
    Block,
    Day,
    Finding,
    Plan,
)
from .values import N_, Moment

OUR_OWN = {"setup", "travel", "pack", "night"}  # work that nobody books us for


def nothing_holds_the_day(plan: Plan) -> Iterator[Finding]:
    if not plan.days:
        message = N_("The wedding has no date yet.")
        yield Finding("nothing_holds_the_day", "missing", message, step="day")
    for day in plan.days:
        if day.blocks:
            continue
        message = N_("%(day)s has no fixed time and no booked hours, so it has no timeline.")
        if not FIRST_YEAR <= day.brief.date.year <= LAST_YEAR:
            message = N_("%(day)s is too far from today to plan: is the year right?")
        yield Finding("nothing_holds_the_day", "missing", message, {"day": day.brief.date}, "day")


def outside_its_day(plan: Plan) -> Iterator[Finding]:
    for day, moment, at in _timed(plan):
        starts, ends = booked_hours(day.brief, plan.brief.zone)
        if (starts and at < starts) or (ends and at > ends):
            yield Finding(
                "outside_its_day",
                "clash",
                N_("%(moment)s at %(at)s is outside the hours you are booked for."),
                {"moment": moment.title, "at": f"{moment.at:%H:%M}"},
                "day",
            )


def beyond_booked_hours(plan: Plan) -> Iterator[Finding]:
    """The plan itself begins early or ends late, though every moment is inside its day."""
    for day in plan.days:
        blocks = [block for block in day.blocks if block.kind not in OUR_OWN]
        if not blocks:
            continue
        starts, ends = booked_hours(day.brief, plan.brief.zone)
        if starts and (early := _minutes(blocks[0].start, starts)) > 0:
            message = N_(
                "%(block)s begins at %(at)s, %(minutes)s minutes before your booked hours."
            )
            yield _beyond(message, blocks[0], blocks[0].start, early)
        last = max(blocks, key=lambda b: b.end.timestamp())
        if ends and (late := _minutes(ends, last.end)) > 0:
            message = N_("%(block)s ends at %(at)s, %(minutes)s minutes after your booked hours.")
            yield _beyond(message, last, last.end, late)


def _beyond(message: str, block: Block, at: datetime, minutes: int) -> Finding:
    values = {"block": block.title, "at": f"{at:%H:%M}", "minutes": minutes}
    return Finding("beyond_booked_hours", "clash", message, values, "timeline")


def clock_change(plan: Plan) -> Iterator[Finding]:
    says = {
        "skipped": N_("%(moment)s at %(at)s: the clocks go forward then and skip that time."),
        "twice": N_("%(moment)s at %(at)s: the clocks go back then. We plan the first %(at)s."),
    }
    for _day, moment, at in _timed(plan):
        if quirk := clock_quirk(at, moment.at, plan.brief.zone):
            values = {"moment": moment.title, "at": f"{moment.at:%H:%M}"}
            yield Finding("clock_change", "look", says[quirk], values, "day")


def not_in_the_timeline(plan: Plan) -> Iterator[Finding]:
    for day in plan.days:
        planned = {block.key for block in day.blocks}
        for moment in day.brief.moments:
            if planned and not moment.at and moment.key not in planned and moment.kind != "end":
                message = N_("%(moment)s has no time yet, and is not in the timeline.")
                values = {"moment": moment.title}
                yield Finding("not_in_the_timeline", "missing", message, values, "day")


def where_it_starts(plan: Plan) -> Iterator[Finding]:
    """The time to leave home rests on where the day starts."""
    for day in plan.days:
        first = next((block for block in day.blocks if block.kind not in OUR_OWN), None)
        if first is None or not plan.brief.places:
            continue
        said = [m.place for m in day.brief.moments if m.key == first.key]
        ticked = any("getting_ready" in place.uses for place in plan.brief.places)
        message = N_("%(block)s has no place yet, so nobody knows when to leave home.")
        if first.place:
            message = N_("Nobody has said where %(block)s is. The plan takes %(place)s.")
        if first.place is None or (first.kind == "ready" and not ticked and not any(said)):
            place = first.place.name if first.place else ""
            values = {"block": first.title, "place": place}
            yield Finding("where_it_starts", "missing", message, values, "places")


def unknown_drives(plan: Plan) -> Iterator[Finding]:
    for origin, destination in dict.fromkeys(p for day in plan.days for p in day.unknown_drives):
        message = N_("How long is the drive from %(origin)s to %(destination)s?")
        if origin is None:
            message = N_("How long is the drive from home to %(destination)s?")
        elif destination is None:
            message = N_("How long is the drive home from %(origin)s?")
        values = {
            "origin": origin.name if origin else "",
            "destination": destination.name if destination else "",
        }
        yield Finding("unknown_drives", "missing", message, values, "map")


def no_time_left(plan: Plan) -> Iterator[Finding]:
    """What gives way has given way entirely."""
    for day in plan.days:
        for _key, title in day.squeezed:
            message = N_("No time is left for “%(block)s”: what is around it takes all of it.")
            yield Finding("no_time_left", "look", message, {"block": title}, "timeline")


def in_the_dark(plan: Plan) -> Iterator[Finding]:
    """Groups and portraits need daylight, or lamps that somebody must bring."""
    for day in plan.days:
        for block in day.blocks:
            if block.kind not in {"groups", "portraits"} or _told_already(day, block):
                continue
            if _sun_is_down(day, block):
                message = N_("%(block)s last until %(at)s, when the sun is down.")
                values = {"block": block.title, "at": f"{block.end:%H:%M}"}
                yield Finding("in_the_dark", "look", message, values, "timeline")


def _told_already(day: Day, block: Block) -> bool:
    """Portraits that begin after sunset have a check of their own."""
    sheets = (sheet for sheet in day.light if block.kind == "portraits")
    lit = ((sheet, sheet.of(block)) for sheet in sheets)
    return any(one and begins_after_sunset(sheet, one) for sheet, one in lit)


def _sun_is_down(day: Day, block: Block) -> bool:
    lit = [sheet for sheet in day.light if sheet.events]
    sheet = next((s for s in lit if s.place == block.place), lit[0] if lit else None)
    if sheet is None:
        return False
    sun = [event for event in sheet.events if event.kind in {"sunrise", "sunset"}]
    passed = [e for e in sun if e.at and e.at.timestamp() < block.end.timestamp()]
    if passed:
        return max(passed, key=lambda e: e.at.timestamp()).kind == "sunset"
    # Nothing has happened yet: the night before the sunrise, or the sun stays where it is.
    return any(e.kind == "sunrise" and (e.at or e.reason == "always_down") for e in sun)


def does_not_fit(plan: Plan) -> Iterator[Finding]:
    """Two times and one sum, so that anybody can check it."""
    for day in plan.days:
        for gap in day.shortfalls:
            room = _minutes(gap.starts, gap.until)
            between = sum(block.minutes for block in gap.between)
            yield Finding(
                "does_not_fit",
                "clash",
                N_(
                    "%(short)s minutes short: from %(after)s at %(from)s to %(before)s at "
                    "%(until)s there are %(room)s minutes, but what must happen takes "
                    "%(between)s and the drives %(drives)s."
                ),
                {
                    "short": gap.short_minutes,
                    "after": _title(gap.after),
                    "before": _title(gap.before),
                    "from": f"{gap.starts:%H:%M}",
                    "until": f"{gap.until:%H:%M}",
                    "room": room,
                    "between": between,
                    "drives": gap.drives,
                },
                "timeline",
            )


def _title(block: Block | None) -> str:
    return block.title if block else N_("the start of the day")


def groups_longer_than_gap(plan: Plan) -> Iterator[Finding]:
    for day in plan.days:
        for gap in day.shortfalls:
            groups = next((b for b in gap.between if b.kind == "groups"), None)
            if groups:
                yield Finding(
                    "groups_longer_than_gap",
                    "clash",
                    N_(
                        "The groups take %(minutes)s minutes, and the time between "
                        "%(after)s and %(before)s is %(short)s short."
                    ),
                    {
                        "minutes": groups.minutes,
                        "after": _title(gap.after),
                        "before": _title(gap.before),
                        "short": gap.short_minutes,
                    },
                    "groups",
                )


def _timed(plan: Plan) -> Iterator[tuple[Day, Moment, datetime]]:
    """Every moment with a time, and its instant (UTC)."""
    for day in plan.days:
        if FIRST_YEAR <= day.brief.date.year <= LAST_YEAR:
            for moment in day.brief.moments:
                if moment.at is not None:
                    yield day, moment, moment_time(day.brief, moment, plan.brief.zone)


def _minutes(start: datetime, end: datetime) -> int:
    """Minutes that pass between two instants, whatever the clocks do meanwhile."""
    return round((end.timestamp() - start.timestamp()) / 60)
