"""Checks of what a day asks of the photographer, and of what they settled.

Rest: Directive 2003/88/EC gives employees 11 hours in 24 (article 3) and a break in a day of more
than six hours (article 4). Drives: the Highway Code, rule 91, says to avoid long journeys between
midnight and 6 am, and to stop for 15 minutes after every two hours. Neither binds a photographer
who works alone; they are the usual caution, and local rules come first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from itertools import pairwise
from typing import Any

from .clock import later
from .planned import Block, Day, Finding, Plan
from .second import clashes
from .values import N_

REST_HOURS, LONGEST_DAY, NO_BREAK = 11, 13, 6
DRIVE_MINUTES = 120
RESTS = {"rest", "meal", "travel"}
SMALL_HOURS = range(6)


def changed_since_settled(plan: Plan) -> Iterator[Finding]:
    """The couple changed a time after the photographer settled it."""
    for day in plan.days:
        moments = {moment.key: moment for moment in day.brief.moments}
        for settled in day.brief.settled:
            moment = moments.get(settled.key)
            if moment is None or settled.said is None or moment.at == settled.said:
                continue
            message = N_(
                "The couple now say %(moment)s at %(at)s. You settled it when they said %(said)s."
            )
            if moment.at is None:
                message = N_(
                    "The couple no longer say when %(moment)s is. You settled it when they said "
                    "%(said)s."
                )
            values = {
                "moment": moment.title,
                "at": f"{moment.at:%H:%M}" if moment.at else "",
                "said": f"{settled.said:%H:%M}",
            }
            yield Finding("changed_since_settled", "clash", message, values, "timeline")


def couple_at_once(plan: Plan) -> Iterator[Finding]:
    """Two photographers want the couple at the same time, or too soon in another place."""
    dry = N_(
        "At %(at)s the couple cannot be at both: “%(own)s” with you, “%(other)s” with the second "
        "photographer."
    )
    wet = N_(
        "In rain the couple cannot be at both at %(at)s: “%(own)s” with you, “%(other)s” with the "
        "second photographer."
    )

    def found(day: Day) -> dict[Any, dict[str, Any]]:
        return {
            (own.key, other.key): {
                "own": own.title,
                "other": other.title,
                "at": f"{max(own.start, other.start):%H:%M}",
            }
            for own, other in clashes(day, plan.brief)
        }

    for day in plan.days:
        yield from _fair_and_wet(day, "couple_at_once", found, dry, wet)


def second_does_not_fit(plan: Plan) -> Iterator[Finding]:
    """The second photographer cannot be where they should be in time."""
    dry = N_(
        "The second photographer’s day does not fit: %(minutes)s minutes short of “%(before)s” at "
        "%(at)s."
    )
    wet = N_(
        "In rain the second photographer’s day does not fit: %(minutes)s minutes short of "
        "“%(before)s” at %(at)s."
    )
    for day in plan.days:
        yield from _fair_and_wet(day, "second_does_not_fit", _second_short, dry, wet)
        for here, there in day.second.unknown_drives if day.second else ():
            values = {"from": here.name if here else "", "to": there.name if there else ""}
            message = N_(
                "Nobody has timed the second photographer’s drive from “%(from)s” to “%(to)s”."
            )
            yield Finding("second_does_not_fit", "missing", message, values, "map")


def _second_short(day: Day) -> dict[Any, dict[str, Any]]:
    return {
        gap.before.key if gap.before else gap.until: {
            "before": gap.before.title if gap.before else "",
            "at": f"{gap.until:%H:%M}",
            "minutes": gap.short_minutes,
        }
        for gap in (day.second.shortfalls if day.second else ())
    }


def _fair_and_wet(
    day: Day, code: str, found: Callable[[Day], dict[Any, dict[str, Any]]], dry: str, wet: str
) -> Iterator[Finding]:
    """What clashes when it is fair, and what does only in rain; `found` gives values by what
    they are about."""
    fair = found(day)
    rain = found(day.wet) if day.wet else {}
    for values in fair.values():
        yield Finding(code, "clash", dry, values, "timeline")
    for key, values in rain.items():
        if key not in fair:
            yield Finding(code, "clash", wet, values, "timeline")


def risky(plan: Plan) -> Iterator[Finding]:
    """The fixed time of a day that is least likely to be kept."""
    for day in plan.days:
        weak = min(day.promises, key=lambda kept: kept.chance, default=None)
        if day.verdict == "risky" and weak:
            values = {
                "block": weak.block.title,
                "at": f"{weak.block.start:%H:%M}",
                "count": max(1, int(100 * weak.chance + 0.5)),
            }
            message = N_("%(block)s at %(at)s is kept on about %(count)s of 100 days.")
            yield Finding("risky", "look", message, values, "timeline")


def long_day(plan: Plan) -> Iterator[Finding]:
    for day in plan.days:
        out = [block for block in day.blocks if block.kind != "night"]  # that one is at home
        if not out:
            continue
        hours = _hours(out[0].start, out[-1].end)
        if hours > LONGEST_DAY:
            message = N_(
                "%(hours)s hours from setting out to being back: less than 11 hours of rest are "
                "left in 24. Eat, drink, sit down, and do not drive tired."
            )
            yield Finding("long_day", "look", message, {"hours": int(hours)}, "timeline")


def no_break(plan: Plan) -> Iterator[Finding]:
    """More than six hours with nothing to eat and nowhere to sit."""
    for day in plan.days:
        work = [block for block in day.blocks if block.kind not in RESTS]
        if not work:
            continue
        rests = [block for block in day.blocks if block.kind in RESTS - {"travel"}]
        ends = [work[0].start, *(b.end for b in rests), work[-1].end]
        starts = [*(b.start for b in rests), work[-1].end]
        for begins, ends_at in zip(ends[:-1], starts, strict=True):
            if _hours(begins, ends_at) > NO_BREAK:
                message = N_(
                    "No time to eat or sit down from %(from)s to %(until)s: find a quarter of "
                    "an hour, and carry food and water."
                )
                values = {"from": f"{begins:%H:%M}", "until": f"{ends_at:%H:%M}"}
                yield Finding("no_break", "look", message, values, "timeline")


def tired_drive(plan: Plan) -> Iterator[Finding]:
    for day in plan.days:
        for block in day.blocks:
            if block.kind != "travel" or block.untimed:
                continue
            values = {"at": f"{block.start:%H:%M}", "minutes": block.minutes}
            if _in_small_hours(block):
                message = N_(
                    "The drive at %(at)s falls between midnight and 6, when people fall asleep "
                    "at the wheel: stay there, or let somebody else drive."
                )
                yield Finding("tired_drive", "look", message, values, "timeline")
            elif block.minutes > DRIVE_MINUTES:
                message = N_(
                    "The drive at %(at)s takes %(minutes)s minutes: plan a stop of 15 minutes "
                    "after every two hours."
                )
                yield Finding("tired_drive", "look", message, values, "timeline")


def _in_small_hours(block: Block) -> bool:
    return block.start.hour in SMALL_HOURS or later(block.end, -1).hour in SMALL_HOURS


def short_night(plan: Plan) -> Iterator[Finding]:
    days = [day for day in plan.days if day.blocks]
    for before, after in pairwise(days):
        ends, starts = before.blocks[-1].end, _sets_out(after)
        hours = _hours(ends, starts)
        if hours < REST_HOURS:
            message = N_(
                "From %(ends)s to %(starts)s there are %(hours)s hours of night, less than 11: "
                "let somebody else charge and copy, or ask for a later start."
            )
            values = {
                "ends": f"{ends:%H:%M}",
                "starts": f"{starts:%H:%M}",
                "hours": max(0, int(hours)),
            }
            yield Finding("short_night", "look", message, values, "timeline")


def _sets_out(day: Day) -> datetime:
    return day.leave_home or day.blocks[0].start


def _hours(start: datetime, end: datetime) -> float:
    """Hours that pass, whatever the clocks do meanwhile."""
    return (end.timestamp() - start.timestamp()) / 3600
