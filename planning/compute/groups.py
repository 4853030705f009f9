"""The group photographs in order, with the minutes each takes."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .people import person_key
from .values import Brief, Group, Turn

CALLING_MINUTES = 5  # to gather the first group; common practice, no source
MANY = 8  # common practice, no source


def group_minutes(group: Group, brief: Brief) -> float:
    """Minutes for one group: the studio's own base and so much more for each person in it."""
    return round(brief.group_base_minutes + brief.group_person_minutes * group.size, 1)


def order_groups(brief: Brief) -> tuple[Turn, ...]:
    """Largest first, so that most guests are free soonest (common practice, no source)."""
    ordered = sorted(brief.groups, key=lambda group: -group.size)
    return tuple(_turns(ordered, brief))


def _turns(ordered: list[Group], brief: Brief) -> Iterable[Turn]:
    last_turn = {person_key(p): i for i, group in enumerate(ordered) for p in group.people}
    there: set[str] = set()
    for i, group in enumerate(ordered):
        keys = {person_key(p) for p in group.people}
        yield Turn(
            number=i + 1,
            group=group,
            minutes=group_minutes(group, brief),
            walks_in=tuple(p for p in group.people if person_key(p) not in there),
            free=tuple(p for p in group.people if last_turn[person_key(p)] == i),
        )
        there = keys


def block_minutes(turns: Iterable[Turn]) -> int:
    """Whole minutes the group photographs need, calling the first one included."""
    total = sum(turn.minutes for turn in turns)
    return math.ceil(total) + CALLING_MINUTES if total else 0
