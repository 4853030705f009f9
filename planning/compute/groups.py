"""The group photographs in order, with the minutes each takes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, timedelta

from .planned import Block, GroupOrder, Turn
from .sequence import choose_order, group_minutes, named, parties
from .values import Brief, Group

CALLING_MINUTES = 5  # to gather the first group; common practice, no source
MANY = 8  # common practice, no source
DAY_MINUTES = 24 * 60


def order_groups(brief: Brief, order: GroupOrder | None = None) -> tuple[Turn, ...]:
    """The groups one after another, in the order in use."""
    return turns_of(brief, (order or choose_order(brief)).keys)


def turns_of(brief: Brief, keys: Iterable[str]) -> tuple[Turn, ...]:
    """These groups one after another."""
    by_key = {group.key: group for group in brief.groups}
    return tuple(_turns([by_key[key] for key in keys], brief))


def _turns(ordered: list[Group], brief: Brief) -> Iterable[Turn]:
    people = [named(brief, group) for group in ordered]
    crowds = [parties(brief, group) for group in ordered]
    last_turn = {key: i for i, group in enumerate(people) for key in group}
    last_crowd = {key: i for i, crowd in enumerate(crowds) for key in crowd}
    there: set[str] = set()
    for i, (group, names, crowd) in enumerate(zip(ordered, people, crowds, strict=True)):
        walks_in = tuple(p for key, p in names.items() if key not in there)
        before = crowds[i - 1] if i else {}
        more = sum(count for key, count in crowd.items() if key not in before)
        # The first group is called together before the first minute.
        walkers = len(walks_in) + more if i else 0
        assembling = round(brief.group_walk_minutes * walkers, 1)
        yield Turn(
            number=i + 1,
            group=group,
            minutes=round(group_minutes(group, brief) + assembling, 1),
            assembling=assembling,
            extra=sum(crowd.values()),
            more_walk_in=more,
            more_free=sum(count for key, count in crowd.items() if last_crowd[key] == i),
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
