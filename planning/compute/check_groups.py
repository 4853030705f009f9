"""Checks of the group photographs: how many, who is who, and who must not be in one."""

from __future__ import annotations

import math
from collections.abc import Iterator

from .groups import MANY
from .people import counted_as_one, near_matches, person_key
from .planned import Finding, Plan
from .sequence import one_key, typed_in
from .values import N_, Brief, Group


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
    for group in _taken(plan):
        keys = [one_key(plan.brief, name) for name in group.people]
        for key in dict.fromkeys(key for key in keys if keys.count(key) > 1):
            yield Finding(
                "twice_in_one_group",
                "look",
                N_("“%(person)s” stands twice in “%(group)s”: one person, or two?"),
                {"person": group.people[keys.index(key)], "group": group.title},
                "groups",
            )


def apart_in_one_frame(plan: Plan) -> Iterator[Finding]:
    for group in _taken(plan):
        typed = typed_in(plan.brief, group)
        for pair, names in _to_keep_apart(plan.brief):
            if pair <= typed:
                message = N_(
                    "%(first)s and %(second)s must not share a frame, but “%(group)s” has both."
                )
                values = names | {"group": group.title}
                yield Finding("apart_in_one_frame", "clash", message, values, "groups")


def apart_with_everybody(plan: Plan) -> Iterator[Finding]:
    for group in _taken(plan):
        typed = typed_in(plan.brief, group)
        for pair, names in _to_keep_apart(plan.brief):
            if group.everyone and not pair <= typed:
                message = N_(
                    "“%(group)s” has everybody in it, %(first)s and %(second)s too, who must not "
                    "share a frame: agree who stands where, or who is left out."
                )
                values = names | {"group": group.title}
                yield Finding("apart_with_everybody", "look", message, values, "groups")


def not_to_be_photographed(plan: Plan) -> Iterator[Finding]:
    shy = _shy(plan.brief)
    for group in _taken(plan):
        for name in group.people:
            if one_key(plan.brief, name) in shy:
                message = N_("%(person)s does not want to be photographed, but is in “%(group)s”.")
                values = {"person": name, "group": group.title}
                yield Finding("not_to_be_photographed", "clash", message, values, "groups")


def shy_with_everybody(plan: Plan) -> Iterator[Finding]:
    for group in _taken(plan):
        typed = typed_in(plan.brief, group)
        for key, name in _shy(plan.brief).items():
            if group.everyone and key not in typed:
                message = N_(
                    "“%(group)s” has everybody in it, and %(person)s does not want to be "
                    "photographed: agree where they are meanwhile."
                )
                values = {"person": name, "group": group.title}
                yield Finding("shy_with_everybody", "look", message, values, "groups")


def _to_keep_apart(brief: Brief) -> Iterator[tuple[set[str], dict[str, str]]]:
    """Pairs who must not share a frame: their keys, and their names for a finding."""
    for care in brief.cares:
        pair = {one_key(brief, care.person), one_key(brief, care.other)}
        if care.kind == "apart" and care.other and len(pair) == 2:
            yield pair, {"first": care.person, "second": care.other}


def _shy(brief: Brief) -> dict[str, str]:
    return {one_key(brief, c.person): c.person for c in brief.cares if c.kind == "no_photo"}


def _taken(plan: Plan) -> list[Group]:
    return [group for group in plan.brief.groups if not group.left_out]


def _everyone(plan: Plan) -> list[str]:
    brief = plan.brief
    named = [name for group in brief.groups for name in group.people]
    cared_for = [name for c in brief.cares for name in (c.person, c.other) if name]
    others = [c.name for c in (*brief.helpers, *brief.contacts)]
    return list(dict.fromkeys(named + cared_for + others))
