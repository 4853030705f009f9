"""The order of a wedding's group photographs: the brief's list put to the order engine."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from .order import (
    Answer,
    Apart,
    Before,
    First,
    Free,
    Last,
    Photograph,
    Problem,
    Rule,
    largest_first,
    measure,
    solve,
)
from .people import person_key
from .planned import GroupOrder, OrderCost
from .values import Brief, Group, GroupRule

# Who should wait least counts as so many people: own choice, no source.
FRAIL = {"seat", "child", "grieves"}
FRAIL_WEIGHT = 3
CROWD, DAY_MINUTES = 100_000, 24 * 60  # a slip of the finger; the engine takes no more
SECONDS = 0.8  # for the search; past it the answer says how far from the best it may be


def group_minutes(group: Group, brief: Brief) -> float:
    """Minutes for one group: the photographer's own, or the studio's base and so much a person."""
    if group.minutes is not None:
        return group.minutes
    size = len(named(brief, group)) + unnamed(brief, group)
    return round(brief.group_base_minutes + brief.group_person_minutes * size, 1)


def one_key(brief: Brief, name: str) -> str:
    """The key of a person, names that the photographer has joined counting as one."""
    key, joined = person_key(name), dict(brief.same_people)
    for _ in range(len(joined)):  # at most once through each pair, whatever circle they make
        key = joined.get(key, key)
    return key


def named(brief: Brief, group: Group) -> dict[str, str]:
    """Each person of a group once: key to the name as typed in this group.

    Everybody is who is named in any group of the list, and who must not wait long.
    """
    found: dict[str, str] = {}
    for person in group.people:
        found.setdefault(one_key(brief, person), person)
    if group.everyone:
        cared_for = (care.person for care in brief.cares if care.kind in FRAIL and care.person)
        for person in (*(p for other in brief.groups for p in other.people), *cared_for):
            found.setdefault(one_key(brief, person), person)
    return found


def unnamed(brief: Brief, group: Group) -> int:
    """How many people stand in it whom nobody names."""
    known = len(named(brief, group)) if group.everyone else 0
    return min(max(group.extra - known, 0), CROWD)


def first_typed(brief: Brief) -> dict[str, str]:
    """The name that each person of the list goes by: as it was first typed."""
    found: dict[str, str] = {}
    for group in brief.groups:
        for person in group.people:
            found.setdefault(one_key(brief, person), person)
    for group in brief.groups:
        if group.everyone:
            found = named(brief, group) | found
    return found


def choose_order(brief: Brief) -> GroupOrder:
    """The order in use, measured against the best, largest first and the couple's own."""
    problem = as_problem(brief)
    answer = _solved(problem.photographs, brief.presence, brief.walk_price, *_frozen(problem))
    orders = {
        "best": answer.order,
        "largest": largest_first(problem),
        "listed": problem.keys,
        "hand": by_hand(brief, answer.order),
    }
    by = brief.order_by if brief.order_by in orders else "best"
    return GroupOrder(
        by=by,
        keys=orders[by],
        costs={name: cost_of(problem, order) for name, order in orders.items()},
        proven=answer.proven,
        gap=answer.gap,
        ruled=bool(problem.rules),
        faults=answer.faults,
    )


def by_hand(brief: Brief, best: tuple[str, ...]) -> tuple[str, ...]:
    """The photographer's own order; groups listed since then follow in the best order."""
    kept = tuple(key for key in dict.fromkeys(brief.hand_order) if key in best)
    return kept + tuple(key for key in best if key not in kept)


def cost_of(problem: Problem, order: tuple[str, ...]) -> OrderCost:
    found = measure(problem, order)
    return OrderCost(found.waiting_minutes, found.walks)


def as_problem(brief: Brief) -> Problem:
    """The groups that are to be taken, and the rules about them that still have their groups."""
    groups = [group for group in brief.groups if not group.left_out]
    names = first_typed(brief)
    photographs = tuple(
        Photograph(
            key=group.key,
            people=tuple(names[key] for key in _in_frame(brief, group)),
            extra=unnamed(brief, group),
            minutes=min(max(group_minutes(group, brief), 0.1), DAY_MINUTES),
            title=group.title,
        )
        for group in groups
    )
    keys = {group.key for group in groups}
    people = {person for photograph in photographs for person in photograph.people}
    frail = {_name(brief, care.person) for care in brief.cares if care.kind in FRAIL}
    return Problem(
        photographs,
        presence=brief.presence,
        walk_price=brief.walk_price,
        seconds=SECONDS,
        weights=dict.fromkeys(sorted(frail & people), FRAIL_WEIGHT),
        rules=_rules(brief, keys, people),
    )


def _in_frame(brief: Brief, group: Group) -> list[str]:
    """Who counts as in a group; with everybody in it, whom to keep apart is not a question of
    what comes next to it."""
    there = named(brief, group)
    if not group.everyone:
        return list(there)
    typed = {one_key(brief, person) for person in group.people}
    apart = {
        one_key(brief, person)
        for care in brief.cares
        if care.kind == "apart"
        for person in (care.person, care.other)
    }
    return [key for key in there if key in typed or key not in apart]


def _name(brief: Brief, typed: str) -> str:
    return first_typed(brief).get(one_key(brief, typed), "")


def _rules(brief: Brief, keys: set[str], people: set[str]) -> tuple[Rule, ...]:
    rules = [rule for given in brief.group_rules if (rule := _rule(brief, given, keys, people))]
    for care in brief.cares:
        pair = _name(brief, care.person), _name(brief, care.other)
        if care.kind == "apart" and pair[0] != pair[1] and set(pair) <= people:
            rules.append(Apart(*pair))
    return tuple(dict.fromkeys([*rules, *_nice_last(brief, rules)]))


def _nice_last(brief: Brief, rules: list[Rule]) -> Iterator[Before]:
    """What is taken if there is time comes after what must be, where no other rule forbids it."""
    if not brief.nice_last:
        return
    taken = [group for group in brief.groups if not group.left_out]
    early = {rule.group for rule in rules if isinstance(rule, First)}
    early |= {rule.one for rule in rules if isinstance(rule, Before)}
    free = {one_key(brief, rule.person) for rule in rules if isinstance(rule, Free)}
    late = {rule.group for rule in rules if isinstance(rule, Last)}
    late |= {rule.other for rule in rules if isinstance(rule, Before)}
    for nice in taken:
        if nice.must or nice.key in early or free & named(brief, nice).keys():
            continue
        yield from (Before(g.key, nice.key) for g in taken if g.must and g.key not in late)


def _rule(brief: Brief, rule: GroupRule, keys: set[str], people: set[str]) -> Rule | None:
    if rule.kind == "free":
        person = _name(brief, rule.one)
        return Free(person, rule.position) if person in people and rule.position > 0 else None
    if rule.one not in keys:
        return None
    if rule.kind == "before":
        known = rule.other in keys and rule.other != rule.one
        return Before(rule.one, rule.other) if known else None
    return {"first": First, "last": Last}[rule.kind](rule.one)


def _frozen(problem: Problem) -> tuple:
    return tuple(problem.weights.items()), problem.rules


@lru_cache(maxsize=256)
def _solved(
    photographs: tuple[Photograph, ...],
    presence: str,
    walk_price: float,
    weights: tuple[tuple[str, float], ...],
    rules: tuple[Rule, ...],
) -> Answer:
    """Remembered by its input alone, so that looking at a page twice searches once."""
    return solve(
        Problem(
            photographs,
            presence=presence,
            walk_price=walk_price,
            seconds=SECONDS,
            weights=dict(weights),
            rules=rules,
        )
    )
