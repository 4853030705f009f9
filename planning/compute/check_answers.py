"""Checks of the couple's answers: what is missing and what contradicts itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

from .chain import find_place
from .groups import MANY
from .people import counted_as_one, near_matches, person_key
from .planned import Finding, Plan
from .values import N_, Moment


def ceremony_time(plan: Plan) -> Iterator[Finding]:
    for moment in _ceremonies(plan):
        if moment.at is None:
            message = N_("%(moment)s has no time yet.")
            yield Finding("ceremony_time", "missing", message, {"moment": moment.title}, "day")
    if not any(day.moments for day in plan.brief.days):
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


def day_of_moment(plan: Plan) -> Iterator[Finding]:
    for moment in plan.brief.loose_moments:
        message = N_("%(moment)s belongs to no day of the wedding.")
        yield Finding("day_of_moment", "clash", message, {"moment": moment.title}, "day")


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
            {"count": count, "minutes": math.ceil(plan.group_minutes), "usual": MANY},
            "groups",
        )


def two_spellings(plan: Plan) -> Iterator[Finding]:
    brief = plan.brief
    settled = {frozenset(pair) for pair in (*brief.same_people, *brief.two_people)}
    for first, second in near_matches(_everyone(plan)):
        if frozenset((person_key(first), person_key(second))) in settled:
            continue
        yield Finding(
            "two_spellings",
            "look",
            N_("“%(first)s” and “%(second)s”: one person in two spellings?"),
            {"first": first, "second": second},
            "groups",
        )


def spellings_counted_as_one(plan: Plan) -> Iterator[Finding]:
    for first, second in counted_as_one(_everyone(plan)):
        yield Finding(
            "spellings_counted_as_one",
            "look",
            N_(
                "“%(first)s” and “%(second)s” are counted as one person. "
                "If they are two, add a word to one of the names."
            ),
            {"first": first, "second": second},
            "groups",
        )


def twice_in_one_group(plan: Plan) -> Iterator[Finding]:
    for group in plan.brief.groups:
        keys = [person_key(name) for name in group.people]
        for key in dict.fromkeys(key for key in keys if keys.count(key) > 1):
            yield Finding(
                "twice_in_one_group",
                "look",
                N_("“%(person)s” stands twice in “%(group)s”: one person, or two?"),
                {"person": group.people[keys.index(key)], "group": group.title},
                "groups",
            )


def apart_in_one_frame(plan: Plan) -> Iterator[Finding]:
    for care in plan.brief.cares:
        if care.kind != "apart" or not care.other:
            continue
        pair = {person_key(care.person), person_key(care.other)}
        for group in plan.brief.groups:
            if len(pair) == 2 and pair <= {person_key(name) for name in group.people}:
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
    shy = {person_key(c.person) for c in plan.brief.cares if c.kind == "no_photo"}
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


def _ceremonies(plan: Plan) -> list[Moment]:
    return [m for day in plan.days for m in day.brief.moments if m.kind == "ceremony"]


def _everyone(plan: Plan) -> list[str]:
    brief = plan.brief
    named = [name for group in brief.groups for name in group.people]
    cared_for = [name for c in brief.cares for name in (c.person, c.other) if name]
    others = [c.name for c in (*brief.helpers, *brief.contacts)]
    return list(dict.fromkeys(named + cared_for + others))
