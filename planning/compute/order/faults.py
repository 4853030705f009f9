"""What cannot be kept, in words, with the rules that clash."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from planning.compute.order.values import (
    Apart,
    Before,
    Fault,
    First,
    Free,
    Last,
    Photograph,
    Problem,
    Rule,
)
from planning.compute.values import N_

MOST_PLACES = 3


def names(problem: Problem) -> dict[str, str]:
    return {photograph.key: photograph.name for photograph in problem.photographs}


def in_words(problem: Problem, rule: Rule) -> str:
    name = names(problem)
    match rule:
        case Before(one, other):
            return f'"{name[one]}" before "{name[other]}"'
        case First(group):
            return f'"{name[group]}" first'
        case Last(group):
            return f'"{name[group]}" last'
        case Free(person, position):
            return f"{person} free by photograph {position}"
        case Apart(one, other):
            return f"{one} and {other} never one after the other"


def clash(problem: Problem, rules: tuple[Rule, ...]) -> Fault:
    """Rules of which all but the last can be kept."""
    last = rules[-1]
    values = {
        "rules": "; ".join(in_words(problem, rule) for rule in rules),
        "aside": in_words(problem, last),
    }
    if len(rules) == 1 and isinstance(last, Free):
        return too_soon(problem, last)
    if len(rules) == 1:
        message = N_("No photograph can come before itself: %(aside)s is set aside.")
        return Fault("circle", message, values, rules)
    if any(isinstance(rule, Free) for rule in rules):
        message = N_(
            "Too much has to come early for these rules together: %(rules)s. "
            "The last of them is set aside."
        )
        return Fault("too_soon", message, values, rules)
    message = N_("These rules go round in a circle: %(rules)s. The last of them is set aside.")
    return Fault("circle", message, values, rules)


def too_soon(problem: Problem, rule: Free) -> Fault:
    message = N_(
        "%(person)s is in %(count)d photographs and cannot be free by photograph %(position)d: "
        "the rule is set aside."
    )
    count = sum(rule.person in photograph.people for photograph in problem.photographs)
    values = {"person": rule.person, "count": count, "position": rule.by_position}
    return Fault("too_soon", message, values, (rule,))


def set_aside(problem: Problem, rule: Rule) -> Fault:
    message = N_("This rule clashes with rules before it and is set aside: %(aside)s.")
    return Fault("set_aside", message, {"aside": in_words(problem, rule)}, (rule,))


def not_largest_first(problem: Problem, pairs: Sequence[tuple[str, str]]) -> Fault:
    name = names(problem)
    message = N_("Largest first gives way to the other rules: %(pairs)s.")
    told = [f'"{name[other]}" may come before "{name[one]}"' for one, other in pairs[:3]]
    if len(pairs) > len(told):
        told.append(f"and {len(pairs) - len(told)} more")
    return Fault("largest_first", message, {"pairs": ", ".join(told)})


def same_frame(problem: Problem) -> list[Fault]:
    """People to be kept apart who stand in one photograph."""
    message = N_(
        "%(one)s and %(other)s are to be kept apart, yet both stand in %(groups)s: "
        "no order can change that."
    )
    found = []
    for rule in problem.rules:
        if isinstance(rule, Apart):
            shared = [
                f'"{photograph.name}"'
                for photograph in problem.photographs
                if {rule.one, rule.other} <= set(photograph.people)
            ]
            if shared:
                values = {"one": rule.one, "other": rule.other, "groups": ", ".join(shared)}
                found.append(Fault("same_frame", message, values, (rule,)))
    return found


def neighbours(problem: Problem, order: Sequence[str], surely: bool) -> list[Fault]:
    """People to be kept apart who come right after each other in this order."""
    sure = N_(
        "%(one)s and %(other)s come one after the other in %(places)s: "
        "no order of this list keeps more people apart."
    )
    unsure = N_(
        "%(one)s and %(other)s come one after the other in %(places)s: "
        "no order that keeps them apart was found in the time."
    )
    by_key = {photograph.key: photograph for photograph in problem.photographs}
    row = [by_key[key] for key in order]
    found = []
    for rule in problem.rules:
        if not isinstance(rule, Apart):
            continue
        places = [
            f'"{left.name}" and "{right.name}"'
            for left, right in pairwise(row)
            if meet(rule, left, right) or meet(rule, right, left)
        ]
        if len(places) > MOST_PLACES:
            places[MOST_PLACES:] = [f"{len(places) - MOST_PLACES} more places"]
        if places:
            values = {"one": rule.one, "other": rule.other, "places": ", then ".join(places)}
            found.append(Fault("neighbours", sure if surely else unsure, values, (rule,)))
    return found


def meet(rule: Apart, left: Photograph, right: Photograph) -> bool:
    return rule.one in left.people and rule.other in right.people
