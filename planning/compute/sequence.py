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
STRANGERS = 200  # of one group, one by one; whoever types more of them has not counted
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
    return _one_key(name, brief.same_people)


def _one_key(name: str, same_people: tuple[tuple[str, str], ...]) -> str:
    key = person_key(name)
    if not same_people:
        return key
    joined = dict(same_people)
    for _ in range(len(joined)):  # at most once through each pair, whatever circle they make
        key = joined.get(key, key)
    return key


def typed_in(brief: Brief, group: Group) -> set[str]:
    """The keys of those whom the couple named for this group."""
    return {one_key(brief, person) for person in group.people}


@lru_cache(maxsize=1000)  # a long list is gone through once for each of its groups
def _spelled(
    people: tuple[str, ...], same_people: tuple[tuple[str, str], ...]
) -> tuple[tuple[str, str], ...]:
    """Each of these people once, as (key, name as first typed)."""
    found: dict[str, str] = {}
    for person in people:
        found.setdefault(_one_key(person, same_people), person)
    return tuple(found.items())


def named(brief: Brief, group: Group) -> dict[str, str]:
    """Each person of a group once: key to the name as typed in this group.

    Everybody is who is named in any group of the list, and who must not wait long.
    """
    found = dict(_spelled(group.people, brief.same_people))
    if group.everyone:
        cared_for = tuple(c.person for c in brief.cares if c.kind in FRAIL and c.person)
        for people in (*(other.people for other in brief.groups), cared_for):
            for key, person in _spelled(people, brief.same_people):
                found.setdefault(key, person)
    return found


def unnamed(brief: Brief, group: Group) -> int:
    """How many people stand in it whom nobody names."""
    known = len(named(brief, group)) if group.everyone else 0
    return min(max(group.extra - known, 0), CROWD)


def parties(brief: Brief, group: Group) -> dict[str, int]:
    """Those whom nobody names, by the group they are counted with: those of every other group
    stand with everybody too. Its own key always comes first."""
    others = {
        other.key: min(other.extra, CROWD)
        for other in brief.groups
        if group.everyone and other.extra and not (other.everyone or other.left_out)
    }
    return {group.key: max(0, unnamed(brief, group) - sum(others.values()))} | others


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
    for name in ("largest", "listed", "hand"):
        orders[name] = _pinned(problem, orders[name])
    by = brief.order_by if brief.order_by in orders else "best"
    return GroupOrder(
        by=by,
        orders=orders,
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


def _pinned(problem: Problem, order: tuple[str, ...]) -> tuple[str, ...]:
    """What the photographer wants first or last is so in every order."""
    first = tuple(rule.group for rule in problem.rules if isinstance(rule, First))
    last = tuple(rule.group for rule in problem.rules if isinstance(rule, Last))
    between = tuple(key for key in order if key not in {*first, *last})
    return tuple(dict.fromkeys((*first, *between, *last)))


def cost_of(problem: Problem, order: tuple[str, ...]) -> OrderCost:
    found = measure(problem, order)
    return OrderCost(found.waiting_minutes, found.walks)


def as_problem(brief: Brief) -> Problem:
    """The groups that are to be taken, and the rules about them that still have their groups."""
    groups = [group for group in brief.groups if not group.left_out]
    names = first_typed(brief)
    crowds = [parties(brief, group) for group in groups]
    shared = {key for crowd in crowds for key in crowd if sum(key in c for c in crowds) > 1}
    photographs = tuple(
        Photograph(
            key=group.key,
            people=(*(names[key] for key in named(brief, group)), *_strangers(crowd, shared)),
            extra=sum(count for key, count in crowd.items() if key not in shared),
            minutes=min(max(group_minutes(group, brief), 0.1), DAY_MINUTES),
            title=group.title,
        )
        for group, crowd in zip(groups, crowds, strict=True)
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


def _strangers(crowd: dict[str, int], shared: set[str]) -> Iterator[str]:
    """One by one those of a crowd whom nobody names but who stand in another photograph too."""
    for key, count in crowd.items():
        if key in shared:
            yield from (f"+{i} {key}" for i in range(min(count, STRANGERS)))


def _name(brief: Brief, typed: str) -> str:
    return first_typed(brief).get(one_key(brief, typed), "")


def _rules(brief: Brief, keys: set[str], people: set[str]) -> tuple[Rule, ...]:
    rules = [rule for given in brief.group_rules if (rule := _rule(brief, given, keys, people))]
    for care in brief.cares:
        pair = _name(brief, care.person), _name(brief, care.other)
        if care.kind == "apart" and pair[0] != pair[1] and set(pair) <= people:
            rules.append(Apart(*pair, crowds=_crowds(brief, {care.person, care.other}, keys)))
    return tuple(dict.fromkeys([*rules, *_nice_last(brief, rules)]))


def _crowds(brief: Brief, pair: set[str], keys: set[str]) -> tuple[str, ...]:
    """Photographs of everybody, in which the two are lost unless both were named for it."""
    both = {one_key(brief, person) for person in pair}
    return tuple(
        group.key
        for group in brief.groups
        if group.everyone and group.key in keys and not both <= typed_in(brief, group)
    )


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
