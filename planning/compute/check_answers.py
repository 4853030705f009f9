"""Checks of the couple's answers: what is missing and what contradicts itself."""

from __future__ import annotations

from collections.abc import Iterator

from .chain import find_place
from .planned import Finding, Plan
from .values import N_, Moment

CEREMONY = "moment.ceremony"  # among what a wedding is not asked
TAKEN_OUT = {
    "day": N_("%(what)s is no longer a day of the wedding. You had settled something about it."),
    "place": N_("“%(what)s” is no longer among the places. You had settled something about it."),
    "group": N_("“%(what)s” is no longer among the groups. You had settled something about it."),
    "time": N_("The time that was %(what)s is gone. You had settled something about it."),
    "untimed": N_("A time is gone that nobody knew yet. You had settled something about it."),
    "moved": N_("“%(what)s” is on another day now. You had settled something about it before."),
}


def ceremony_time(plan: Plan) -> Iterator[Finding]:
    if CEREMONY in plan.brief.not_asked:
        return
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
    if CEREMONY in plan.brief.not_asked:
        return
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
    wanted = not plan.brief.not_asked & {"list.helpers", "step.people"}
    if wanted and plan.turns and not plan.brief.helpers:
        message = N_("There are group photographs but no helper who knows the faces.")
        yield Finding("helper_for_groups", "missing", message, step="people")


def wet_plan(plan: Plan) -> Iterator[Finding]:
    for place in plan.brief.places:
        if not place.wet_plan and "places.wet_plan" not in plan.brief.not_asked:
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


def unread_phone(plan: Plan) -> Iterator[Finding]:
    for each in plan.brief.unread_phones:
        message = N_("%(name)s: “%(phone)s” does not read as a phone number.")
        values = {"name": each.name, "phone": each.phone}
        yield Finding("unread_phone", "look", message, values, each.step)


def own_question(plan: Plan) -> Iterator[Finding]:
    for each in plan.brief.open_questions:
        message = N_("Your own question is not answered: %(question)s")
        yield Finding("own_question", "missing", message, {"question": each.text}, each.step)


def taken_out(plan: Plan) -> Iterator[Finding]:
    """Decisions that rest on nothing any more: kept, used nowhere, and never dropped unseen."""
    for each in plan.brief.taken_out:
        kind = "untimed" if each.kind == "time" and not each.name else each.kind
        values = {"what": each.name}
        yield Finding("taken_out", "clash", TAKEN_OUT[kind], values, "taken-out")


def _ceremonies(plan: Plan) -> list[Moment]:
    return [m for day in plan.days for m in day.brief.moments if m.kind == "ceremony"]
