"""What cannot be kept, in words, with the rules that clash."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from planning.compute.order.instance import bits
from planning.compute.order.values import (
    Apart,
    Before,
    Fault,
    First,
    Free,
    Last,
    Problem,
    Rule,
)
from planning.compute.values import N_

MOST_PLACES = 3
Masks = Mapping[str, int]
PairOf = Callable[[Apart], tuple[int, int]]


class Words:
    """Speaks of the rules of one list; `masks` has the photographs of each person they name."""

    def __init__(self, problem: Problem) -> None:
        self.name = {photograph.key: photograph.name for photograph in problem.photographs}
        self.row = list(self.name.values())

    def rule(self, rule: Rule) -> str:
        name = self.name
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

    def clash(self, rules: tuple[Rule, ...], masks: Masks) -> Fault:
        """Rules of which all but the last can be kept."""
        last = rules[-1]
        values = {"rules": "; ".join(map(self.rule, rules)), "aside": self.rule(last)}
        if len(rules) == 1 and isinstance(last, Free):
            return too_soon(last, masks[last.person].bit_count())
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

    def set_aside(self, rule: Rule) -> Fault:
        message = N_("This rule clashes with rules before it and is set aside: %(aside)s.")
        return Fault("set_aside", message, {"aside": self.rule(rule)}, (rule,))

    def not_largest_first(self, pairs: Sequence[tuple[str, str]]) -> Fault:
        message = N_("Largest first gives way to the other rules: %(pairs)s.")
        name = self.name
        told = [f'"{name[other]}" may come before "{name[one]}"' for one, other in pairs[:3]]
        if len(pairs) > len(told):
            told.append(f"and {len(pairs) - len(told)} more")
        return Fault("largest_first", message, {"pairs": ", ".join(told)})

    def same_frame(self, rules: Sequence[Rule], pair: PairOf) -> list[Fault]:
        """People to be kept apart who stand in one photograph."""
        message = N_(
            "%(one)s and %(other)s are to be kept apart, yet both stand in %(groups)s: "
            "no order can change that."
        )
        found = []
        for rule in rules:
            if not isinstance(rule, Apart):
                continue
            one, other = pair(rule)
            if shared := one & other:
                groups = [f'"{self.row[g]}"' for g in some(shared)]
                if more := shared.bit_count() - len(groups):
                    groups.append(f"{more} more")
                values = {"one": rule.one, "other": rule.other, "groups": ", ".join(groups)}
                found.append(Fault("same_frame", message, values, (rule,)))
        return found


def too_soon(rule: Free, count: int) -> Fault:
    message = N_(
        "%(person)s is in %(count)d photographs and cannot be free by photograph %(position)d: "
        "the rule is set aside."
    )
    values = {"person": rule.person, "count": count, "position": rule.by_position}
    return Fault("too_soon", message, values, (rule,))


def some(mask: int) -> list[int]:
    return [g for g, _ in zip(bits(mask), range(MOST_PLACES), strict=False)]


def neighbours(problem: Problem, order: Sequence[str], masks: Masks, surely: bool) -> list[Fault]:
    """People to be kept apart who come right after each other in this order; `masks` has the
    positions of each of them in it."""
    sure = N_(
        "%(one)s and %(other)s come one after the other in %(places)s: "
        "no order of this list keeps more people apart."
    )
    unsure = N_(
        "%(one)s and %(other)s come one after the other in %(places)s: "
        "no order that keeps them apart was found in the time."
    )
    words = Words(problem)
    row = [words.name[key] for key in order]
    found = []
    for rule in problem.rules:
        if not isinstance(rule, Apart):
            continue
        crowds = sum(1 << order.index(key) for key in rule.crowds)
        one, other = masks[rule.one] & ~crowds, masks[rule.other] & ~crowds
        if meetings := one & other >> 1 | other & one >> 1:
            places = [f'"{row[i]}" and "{row[i + 1]}"' for i in some(meetings)]
            if more := meetings.bit_count() - len(places):
                places.append(f"{more} more places")
            values = {"one": rule.one, "other": rule.other, "places": ", then ".join(places)}
            found.append(Fault("neighbours", sure if surely else unsure, values, (rule,)))
    return found
