"""The group photographs in order, with the minutes each takes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, timedelta

from .people import person_key
from .values import Block, Brief, Group, Turn

CALLING_MINUTES = 5  # to gather the first group; common practice, no source
MANY = 8  # common practice, no source
DAY_MINUTES = 24 * 60


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
        named = _named(group)
        yield Turn(
            number=i + 1,
            group=group,
            minutes=group_minutes(group, brief),
            walks_in=tuple(p for key, p in named.items() if key not in there),
            free=tuple(p for key, p in named.items() if last_turn[key] == i),
        )
        there = set(named)


def _named(group: Group) -> dict[str, str]:
    """Each person once, by key, as first typed."""
    named: dict[str, str] = {}
    for person in group.people:
        named.setdefault(person_key(person), person)
    return named


def block_minutes(turns: Iterable[Turn]) -> int:
    """Whole minutes the group photographs need, calling the first one included; a day at most."""
    total = round(sum(turn.minutes for turn in turns), 1)
    return min(math.ceil(total) + CALLING_MINUTES, DAY_MINUTES) if total else 0


def with_clock(turns: Iterable[Turn], block: Block) -> tuple[Turn, ...]:
    """Each group's whole minute on the clock: after the calling, one after another."""
    clocked, elapsed = [], float(CALLING_MINUTES)
    for turn in turns:
        minute = math.floor(round(elapsed, 1))
        at = block.start.astimezone(UTC) + timedelta(minutes=min(minute, DAY_MINUTES))
        clocked.append(replace(turn, starts=at.astimezone(block.start.tzinfo)))
        elapsed += turn.minutes
    return tuple(clocked)
