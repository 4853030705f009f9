"""The group photographs in order, with the minutes each takes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, timedelta

from .planned import Block, GroupOrder, Turn
from .sequence import choose_order, group_minutes, named, unnamed
from .values import Brief, Group

CALLING_MINUTES = 5  # to gather the first group; common practice, no source
MANY = 8  # common practice, no source
DAY_MINUTES = 24 * 60


def order_groups(brief: Brief, order: GroupOrder | None = None) -> tuple[Turn, ...]:
    """The groups one after another, in the order in use."""
    by_key = {group.key: group for group in brief.groups}
    keys = (order or choose_order(brief)).keys
    return tuple(_turns([by_key[key] for key in keys], brief))


def _turns(ordered: list[Group], brief: Brief) -> Iterable[Turn]:
    people = [named(brief, group) for group in ordered]
    last_turn = {key: i for i, group in enumerate(people) for key in group}
    there: set[str] = set()
    for i, (group, names) in enumerate(zip(ordered, people, strict=True)):
        walks_in = tuple(p for key, p in names.items() if key not in there)
        # The first group is called together before the first minute.
        extra = unnamed(brief, group)
        walkers = len(walks_in) + extra if i else 0
        assembling = round(brief.group_walk_minutes * walkers, 1)
        yield Turn(
            number=i + 1,
            group=group,
            minutes=round(group_minutes(group, brief) + assembling, 1),
            assembling=assembling,
            extra=extra,
            walks_in=walks_in,
            free=tuple(p for key, p in names.items() if last_turn[key] == i),
        )
        there = set(names)


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
