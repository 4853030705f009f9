"""Photographs of the same people: in some best order they follow each other, so they are one."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import chain

from planning.compute.order.instance import bits
from planning.compute.order.rules import Limits
from planning.compute.order.values import Apart, Before, First, Free, Last, Photograph, Problem

Sets = list[list[int]]


def merge(problem: Problem, limits: Limits) -> tuple[Problem, Limits, Sets]:
    """The list with such photographs as one, its rules, and the numbers each stands for.

    Not those that a rule names, and none where positions count or people are kept apart, because
    there it matters what stands between two others. People whose cost no order can change are
    left out, so costs differ by a constant.
    """
    alone = [[g] for g in range(len(problem.photographs))]
    if any(isinstance(rule, Free | Apart) for rule in problem.rules):
        return problem, limits, alone
    sets = alike(problem)
    projected = project(limits, sets)
    if len(sets) == len(alone) or projected is None:
        return problem, limits, alone
    matter = mattering(problem)
    photographs = tuple(joined([problem.photographs[g] for g in same], matter) for same in sets)
    people = {person for photograph in photographs for person in photograph.people}
    weights = {person: problem.weights[person] for person in people & problem.weights.keys()}
    return replace(problem, photographs=photographs, weights=weights), projected, sets


def mattering(problem: Problem) -> set[str]:
    """People whose cost depends on the order."""
    everyone = (photograph.people for photograph in problem.photographs)
    people = Counter(chain.from_iterable(everyone))
    if problem.walk_price:
        return set(people)
    fewest = 2 if problem.presence == "called" else 1
    return {
        person
        for person, count in people.items()
        if count >= fewest and problem.weights.get(person, 1)
    }


def alike(problem: Problem) -> Sets:
    matter = mattering(problem)
    strangers_matter = problem.walk_price or problem.presence == "gathered"
    named = set()
    for rule in problem.rules:
        if isinstance(rule, Before):
            named |= {rule.one, rule.other}
        elif isinstance(rule, First | Last):
            named.add(rule.group)
    sets: dict[object, list[int]] = {}
    for g, photograph in enumerate(problem.photographs):
        same: object = frozenset(photograph.people) & matter
        if photograph.key in named or (photograph.extra and strangers_matter):
            same = g
        sets.setdefault((same, photograph.size if problem.largest_first else 0), []).append(g)
    return list(sets.values())


def joined(photographs: list[Photograph], matter: set[str]) -> Photograph:
    first = photographs[0]
    people = tuple(person for person in first.people if person in matter)
    minutes = sum(photograph.length for photograph in photographs)
    extra = first.extra if len(photographs) == 1 else 0
    return Photograph(first.key, people, extra, round(minutes, 6), first.title)


def project(limits: Limits, sets: Sets) -> Limits | None:
    """The rules between sets, or None when they treat photographs of a set differently."""
    home = {g: i for i, same in enumerate(sets) for g in same}

    def seen(mask: int, own: int) -> int:
        return sum(1 << i for i in {home[g] for g in bits(mask)} - {own})

    small = Limits.none(len(sets))
    for i, same in enumerate(sets):
        before = {seen(limits.before[g], i) for g in same}
        after = {seen(limits.after[g], i) for g in same}
        if len(before) > 1 or len(after) > 1:
            return None
        small.before[i], small.after[i] = before.pop(), after.pop()
    return small
