"""What the photographer should know: one function per check, each silent when all is well."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import timedelta

from .chain import find_place, wall_time
from .groups import MANY
from .people import near_matches, person_key
from .values import N_, Day, Finding, Moment, Plan


def ceremony_time(plan: Plan) -> Iterator[Finding]:
    ceremonies = _ceremonies(plan)
    for moment in ceremonies:
        if moment.at is None:
            yield Finding(
                "ceremony_time", "missing", N_("The ceremony has no time yet."), step="day"
            )
    if not ceremonies:
        yield Finding(
            "ceremony_time",
            "missing",
            N_("No ceremony is listed. If there is none, give one other fixed time."),
            step="day",
        )


def ceremony_place(plan: Plan) -> Iterator[Finding]:
    for moment in _ceremonies(plan):
        if moment.place is None and find_place(plan.brief, "ceremony") is None:
            message = N_("Nobody has said where the ceremony is.")
            yield Finding("ceremony_place", "missing", message, step="places")
            return


def way_to_reach(plan: Plan) -> Iterator[Finding]:
    if not any(partner.phone for partner in plan.brief.partners):
        message = N_("There is no phone number for either partner.")
        yield Finding("way_to_reach", "missing", message, step="two-of-you")


def helper_for_groups(plan: Plan) -> Iterator[Finding]:
    if plan.turns and not plan.brief.helpers:
        message = N_("There are group photographs but no helper who knows the faces.")
        yield Finding("helper_for_groups", "missing", message, step="people")


def wet_plan(plan: Plan) -> Iterator[Finding]:
    for place in plan.brief.places:
        if not place.wet_plan:
            yield Finding(
                "wet_plan",
                "missing",
                N_("%(place)s: where to go if it rains?"),
                {"place": place.name},
                "places",
            )


def place_on_map(plan: Plan) -> Iterator[Finding]:
    for place in plan.brief.places:
        if place.spot is None:
            yield Finding(
                "place_on_map",
                "missing",
                N_("%(place)s has no coordinates, so its light cannot be computed."),
                {"place": place.name},
                "map",
            )


def unknown_drives(plan: Plan) -> Iterator[Finding]:
    for origin, destination in dict.fromkeys(p for day in plan.days for p in day.unknown_drives):
        message = N_("How long is the drive from %(origin)s to %(destination)s?")
        if origin is None:
            message = N_("How long is the drive from home to %(destination)s?")
        values = {
            "origin": origin.name if origin else "",
            "destination": destination.name if destination else "",
        }
        yield Finding("unknown_drives", "missing", message, values, "map")


def many_groups(plan: Plan) -> Iterator[Finding]:
    count = len(plan.turns)
    if count > MANY:
        yield Finding(
            "many_groups",
            "look",
            N_(
                "%(count)s groups take about %(minutes)s minutes. About %(usual)s is "
                "what most days have room for (common practice, no source)."
            ),
            {"count": count, "minutes": round(plan.group_minutes), "usual": MANY},
            "groups",
        )


def two_spellings(plan: Plan) -> Iterator[Finding]:
    for first, second in near_matches(_everyone(plan)):
        yield Finding(
            "two_spellings",
            "look",
            N_("“%(first)s” and “%(second)s”: one person in two spellings?"),
            {"first": first, "second": second},
            "groups",
        )


def outside_its_day(plan: Plan) -> Iterator[Finding]:
    for day in plan.days:
        for moment in day.brief.moments:
            if moment.at and _outside(plan, day, moment):
                yield Finding(
                    "outside_its_day",
                    "clash",
                    N_("%(moment)s at %(at)s is outside the hours you are booked for."),
                    {"moment": moment.title, "at": f"{moment.at:%H:%M}"},
                    "day",
                )


def day_of_moment(plan: Plan) -> Iterator[Finding]:
    for moment in plan.brief.loose_moments:
        message = N_("%(moment)s belongs to no day of the wedding.")
        yield Finding("day_of_moment", "clash", message, {"moment": moment.title}, "day")


def _outside(plan: Plan, day: Day, moment: Moment) -> bool:
    zone, brief = plan.brief.zone, day.brief
    at = wall_time(brief.date, moment.at, zone, moment.kind)
    early = brief.starts and at < wall_time(brief.date, brief.starts, zone)
    late = brief.ends and at > wall_time(brief.date, brief.ends, zone, "end")
    return bool(early or late)


def does_not_fit(plan: Plan) -> Iterator[Finding]:
    """Two fixed times and one sum, so that anybody can check it."""
    for day in plan.days:
        for gap in day.shortfalls:
            blocks = (gap.after, *gap.between)
            between = sum((b.end - b.start for b in blocks), timedelta())
            # What is not in a block is on the road.
            room = gap.before.start - gap.after.start
            drives = timedelta(minutes=gap.short_minutes) - (between - room)
            yield Finding(
                "does_not_fit",
                "clash",
                N_(
                    "%(short)s minutes short: from %(after)s at %(from)s to %(before)s at "
                    "%(until)s there are %(room)s minutes, but %(blocks)s blocks take "
                    "%(between)s and the drives %(drives)s."
                ),
                {
                    "short": gap.short_minutes,
                    "after": gap.after.title,
                    "before": gap.before.title,
                    "from": f"{gap.after.start:%H:%M}",
                    "until": f"{gap.before.start:%H:%M}",
                    "room": _minutes(room),
                    "blocks": len(blocks),
                    "between": _minutes(between),
                    "drives": _minutes(drives),
                },
                "timeline",
            )


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
                        "after": gap.after.title,
                        "before": gap.before.title,
                        "short": gap.short_minutes,
                    },
                    "groups",
                )


def apart_in_one_frame(plan: Plan) -> Iterator[Finding]:
    for care in plan.brief.cares:
        if care.kind != "apart" or not care.other:
            continue
        pair = {person_key(care.person), person_key(care.other)}
        for group in plan.brief.groups:
            if pair <= {person_key(name) for name in group.people}:
                yield Finding(
                    "apart_in_one_frame",
                    "clash",
                    N_(
                        "%(first)s and %(second)s must not share a frame, but “%(group)s” has both."
                    ),
                    {"first": care.person, "second": care.other, "group": group.title},
                    "groups",
                )


def not_to_be_photographed(plan: Plan) -> Iterator[Finding]:
    shy = {person_key(c.person): c.person for c in plan.brief.cares if c.kind == "no_photo"}
    for group in plan.brief.groups:
        for name in group.people:
            if person_key(name) in shy:
                yield Finding(
                    "not_to_be_photographed",
                    "clash",
                    N_("%(person)s does not want to be photographed, but is in “%(group)s”."),
                    {"person": name, "group": group.title},
                    "groups",
                )


CHECKS: tuple[Callable[[Plan], Iterator[Finding]], ...] = (
    ceremony_time,
    ceremony_place,
    outside_its_day,
    day_of_moment,
    does_not_fit,
    groups_longer_than_gap,
    apart_in_one_frame,
    not_to_be_photographed,
    way_to_reach,
    helper_for_groups,
    wet_plan,
    place_on_map,
    unknown_drives,
    many_groups,
    two_spellings,
)


def find_all(plan: Plan) -> Iterator[Finding]:
    for check in CHECKS:
        yield from check(plan)


def _ceremonies(plan: Plan) -> list[Moment]:
    return [m for day in plan.days for m in day.brief.moments if m.kind == "ceremony"]


def _everyone(plan: Plan) -> list[str]:
    brief = plan.brief
    named = [name for group in brief.groups for name in group.people]
    return named + [c.person for c in brief.cares] + [h.name for h in brief.helpers]


def _minutes(length: timedelta) -> int:
    return round(length.total_seconds() / 60)
