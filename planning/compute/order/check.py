"""Whether a problem makes sense at all; what is wrong is one line."""

from __future__ import annotations

from collections.abc import Collection
from math import isfinite

from planning.compute.json_text import ProblemError
from planning.compute.order.values import (
    Apart,
    Before,
    First,
    Free,
    Last,
    Photograph,
    Problem,
    Rule,
)

# Far beyond any wedding; keeps whole-number arithmetic and the printed totals sane.
MOST = 100_000


def check(problem: Problem) -> None:
    """ProblemError for numbers that mean nothing and names that the list does not have."""
    if problem.presence not in ("gathered", "called"):
        raise ProblemError('presence is neither "gathered" nor "called"')
    number(problem.walk_price, "walk_price")
    number(problem.seconds, "seconds", above=True)
    seen: set[str] = set()
    for photograph in problem.photographs:
        if photograph.key in seen:
            raise ProblemError(f'two groups have the id "{photograph.key}"')
        seen.add(photograph.key)
        check_photograph(photograph)
    people = {person for photograph in problem.photographs for person in photograph.people}
    for person, weight in problem.weights.items():
        known(person, people, "weights name")
        number(weight, f'weight of "{person}"')
    for rule in problem.rules:
        check_rule(rule, seen, people)


def number(value: float, name: str, above: bool = False) -> None:
    """A finite number from 0 (or above it) to MOST."""
    if not isfinite(value) or value < 0 or value > MOST or (above and round(value, 6) <= 0):
        least = "more than 0" if above else "0 or more"
        raise ProblemError(f"{name} must be a number, {least} and at most {MOST}")


def check_photograph(photograph: Photograph) -> None:
    if photograph.minutes is not None:
        number(photograph.minutes, f'minutes of group "{photograph.key}"', above=True)
    number(photograph.extra, f'extra people of group "{photograph.key}"')
    if len(set(photograph.people)) < len(photograph.people):
        raise ProblemError(f'group "{photograph.key}" names somebody twice')


def known(name: str, names: Collection[str], what: str) -> None:
    if name not in names:
        raise ProblemError(f'{what} "{name}", not in the list of groups')


def check_rule(rule: Rule, groups: Collection[str], people: Collection[str]) -> None:
    match rule:
        case Before(one, other):
            known(one, groups, "a rule names group")
            known(other, groups, "a rule names group")
        case First(group) | Last(group):
            known(group, groups, "a rule names group")
        case Free(person, _):
            known(person, people, "a rule names")
        case Apart(one, other, crowds):
            for group in crowds:
                known(group, groups, "a rule names group")
            known(one, people, "a rule names")
            known(other, people, "a rule names")
            if one == other:
                raise ProblemError(f'a rule keeps "{one}" apart from the same person')
