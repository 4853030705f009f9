"""The `order` command's JSON: what it may say, and the answer as it is printed."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil
from typing import Any

from planning.compute.json_text import ProblemError, opened, quoted, rows, table, words
from planning.compute.order.telling import verdict
from planning.compute.order.values import (
    Answer,
    Apart,
    Before,
    Fault,
    First,
    Free,
    Last,
    Measure,
    Photograph,
    Problem,
    Rule,
)

FIELDS = {
    "presence",
    "walk_price",
    "seconds",
    "largest_first",
    "weights",
    "groups",
    "rules",
}
GROUP_FIELDS = {"id", "title", "people", "extra", "minutes"}

# Far beyond any wedding: what can be read, ruled and costed within the time limit.
MOST_GROUPS, MOST_PEOPLE, MOST_RULES = 250, 500, 500
MOST_BYTES = 8_000_000
LEAST_SECONDS = 0.1


def read(text: str) -> Problem:
    """A problem from JSON text; ProblemError with one line about the first thing amiss."""
    data = opened(text, FIELDS, "groups", {"groups": MOST_GROUPS, "rules": MOST_RULES})
    problem = Problem(
        photographs=tuple(
            photograph(item, place) for place, item in enumerate(rows(data, "groups"), 1)
        ),
        presence=data.get("presence", "gathered"),
        walk_price=number(data.get("walk_price", 0), "walk_price"),
        seconds=number(data.get("seconds", 1.0), "seconds"),
        largest_first=yes_or_no(data.get("largest_first", False)),
        weights=weights(data.get("weights", {})),
        rules=tuple(rule(item, place) for place, item in enumerate(rows(data, "rules"), 1)),
    )
    check_size(problem)
    return problem


def check_size(problem: Problem) -> None:
    """So long a list that it cannot be costed in the seconds given, or at all."""
    people = {person for photograph in problem.photographs for person in photograph.people}
    if len(people) > MOST_PEOPLE:
        raise ProblemError(f"more than {MOST_PEOPLE} people")
    if not problem.seconds >= (least := least_seconds(problem)):
        raise ProblemError(f"seconds must be {least} or more for a list of this size")


def least_seconds(problem: Problem) -> float:
    """What reading the rules and costing three orders takes, without any search, with a margin
    for a slow or busy machine: 0.1 up to about a hundred groups."""
    groups, rules = len(problem.photographs), len(problem.rules)
    names = sum(len(photograph.people) for photograph in problem.photographs)
    needed = names / 200_000 + groups * groups / 200_000 + groups * rules / 400_000
    return min(max(LEAST_SECONDS, ceil(round(10 * needed, 6)) / 10), 1.0)


def number(value: Any, name: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ProblemError(f"{name} must be a number, not {quoted(value)}")
    if isinstance(value, int) and abs(value) > 10**9:
        raise ProblemError(f"{name} is far too big")
    return value


def whole(value: Any, name: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise ProblemError(f"{name} must be a whole number, not {quoted(value)}")
    return int(number(value, name))


def yes_or_no(value: Any) -> bool:
    if not isinstance(value, bool):
        raise ProblemError("largest_first must be true or false")
    return value


def weights(value: Any) -> dict[str, float]:
    found = table(value, "weights")
    for person in found:
        words(person, "a person in weights")
    return {
        person: number(weight, f"weight of {quoted(person)}") for person, weight in found.items()
    }


def photograph(item: Any, place: int) -> Photograph:
    name = f"group {place}"
    data = table(item, name, GROUP_FIELDS)
    people = [words(person, f"a person in {name}") for person in rows(data, "people", f"{name}: ")]
    minutes = data.get("minutes")
    title = data.get("title", "")
    if not isinstance(title, str):
        raise ProblemError(f"title of {name} must be a text")
    if title.strip():
        words(title, f"title of {name}")
    return Photograph(
        words(data.get("id"), f"id of {name}"),
        tuple(dict.fromkeys(people)),
        whole(data.get("extra", 0), f"extra of {name}"),
        None if minutes is None else number(minutes, f"minutes of {name}"),
        title,
    )


def before(data: dict[str, Any], name: str) -> Rule:
    return Before(words(data["before"], name), words(data["after"], name))


def free(data: dict[str, Any], name: str) -> Rule:
    return Free(words(data["free"], name), whole(data["by_position"], f"by_position of {name}"))


def apart(data: dict[str, Any], name: str) -> Rule:
    pair = data["apart"]
    if not isinstance(pair, list) or len(pair) != 2:
        raise ProblemError(f'{name}: "apart" must be a list of two people')
    return Apart(words(pair[0], name), words(pair[1], name))


KINDS: dict[frozenset[str], Callable[[dict[str, Any], str], Rule]] = {
    frozenset({"before", "after"}): before,
    frozenset({"first"}): lambda data, name: First(words(data["first"], name)),
    frozenset({"last"}): lambda data, name: Last(words(data["last"], name)),
    frozenset({"free", "by_position"}): free,
    frozenset({"apart"}): apart,
}


def rule(item: Any, place: int) -> Rule:
    name = f"rule {place}"
    kind = KINDS.get(frozenset(table(item, name)))
    if kind is None:
        raise ProblemError(f"{name} is none of before/after, first, last, free/by_position, apart")
    return kind(item, name)


def as_measure(measure: Measure) -> dict[str, float]:
    return {
        "presence_minutes": round(measure.presence_minutes, 6),
        "waiting_minutes": round(measure.waiting_minutes, 6),
        "walks": measure.walks,
        "cost": round(measure.cost, 6),
    }


def as_rule(rule: Rule) -> dict[str, Any]:
    match rule:
        case Before(one, other):
            return {"before": one, "after": other}
        case First(group):
            return {"first": group}
        case Last(group):
            return {"last": group}
        case Free(person, position):
            return {"free": person, "by_position": position}
        case Apart(one, other):
            return {"apart": [one, other]}


def as_fault(fault: Fault) -> dict[str, Any]:
    return {
        "code": fault.code,
        "text": fault.text,
        "rules": [as_rule(rule) for rule in fault.rules],
    }


def as_json(problem: Problem, answer: Answer) -> dict[str, Any]:
    """The answer as design.md section 5 has it. `gap` is null while no bound is known; `verdict`
    says in words what is proven, and under which rules; `cut` what stopped the search."""
    return {
        "order": list(answer.order),
        **as_measure(answer.measure),
        "bound": round(answer.bound, 6),
        "proof": "proven" if answer.proven else "bounded",
        "gap": None if answer.gap is None else round(answer.gap, 6),
        "verdict": verdict(problem, answer),
        "cut": answer.cut,
        "seconds": round(answer.seconds, 4),
        "as_listed": as_measure(answer.as_listed),
        "largest_first": as_measure(answer.largest_first),
        "freed": [
            {
                "person": freed.person,
                "after_position": freed.after_position,
                "minute": round(freed.minute, 6),
            }
            for freed in answer.freed
        ],
        "faults": [as_fault(fault) for fault in answer.faults],
    }
