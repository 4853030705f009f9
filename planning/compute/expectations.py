"""What the list of groups costs, and what would make it cheaper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise

from .order import measure
from .planned import (
    Block,
    Day,
    GroupOrder,
    Turn,
)
from .sequence import as_problem, group_minutes, named
from .values import Brief, Group

ALIKE = 0.5  # own choice: half of both groups' people in common is worth a look


@dataclass(frozen=True, slots=True)
class Saving:
    """What leaving a group out saves in this order, and which other group nearly shows it.

    `inside` is the title of a group that holds everybody in this one; `alike` of one that could
    be taken together with it.
    """

    key: str
    minutes: float
    guest_minutes: float
    inside: str = ""
    alike: str = ""


@dataclass(frozen=True, slots=True)
class Wait:
    """One person's time at the groups as (start, end, in a photograph), minutes from the first."""

    name: str
    spans: tuple[tuple[float, float, bool], ...]

    @property
    def until(self) -> float:
        return self.spans[-1][1]


def savings(brief: Brief, order: GroupOrder) -> dict[str, Saving]:
    problem = as_problem(brief)
    groups = {group.key: group for group in brief.groups if not group.left_out}
    whole = measure(problem, order.keys).waiting_minutes
    found = {}
    for key, group in groups.items():
        others = tuple(p for p in problem.photographs if p.key != key)
        rest = measure(
            type(problem)(others, presence=problem.presence, weights=problem.weights),
            tuple(k for k in order.keys if k != key),
        )
        inside, alike = _neighbours(brief, group, groups)
        minutes = group_minutes(group, brief)
        found[key] = Saving(key, minutes, whole - rest.waiting_minutes, inside, alike)
    return found


def _neighbours(brief: Brief, group: Group, groups: dict[str, Group]) -> tuple[str, str]:
    own = set(named(brief, group))
    inside, alike = "", ""
    for other in groups.values():
        theirs = set(named(brief, other))
        if other.key == group.key or group.extra or not own:
            continue
        if own < theirs or (own == theirs and other.extra):
            inside = inside or other.title
        elif len(own & theirs) > ALIKE * len(own | theirs):
            alike = alike or other.title
    return inside, alike


def waits(brief: Brief, turns: tuple[Turn, ...]) -> list[Wait]:
    """Everybody named, in the order they may go; unnamed people are in one photograph each."""
    spans: dict[str, list[tuple[float, float, bool]]] = {}
    names: dict[str, str] = {}
    now = 0.0
    for turn in turns:
        end = round(now + turn.minutes, 1)
        for key, name in named(brief, turn.group).items():
            came = now if brief.presence == "called" else 0.0
            own = spans.setdefault(key, [])
            since = own[-1][1] if own else came
            if since < now:
                own.append((since, now, False))
            own.append((now, end, True))
            names.setdefault(key, name)
        now = end
    found = [Wait(names[key], tuple(own)) for key, own in spans.items()]
    return sorted(found, key=lambda wait: wait.until)


def minutes_for_groups(days: tuple[Day, ...]) -> int | None:
    """Minutes the day has for the groups if nothing else gives way, or None without a block."""
    for day in days:
        for i, block in enumerate(day.blocks):
            if block.kind == "groups":
                short = sum(s.short_minutes for s in day.shortfalls if block in s.between)
                return max(block.minutes - short, 0) + _slack(day.blocks[i:])
    return None


def _slack(blocks: tuple[Block, ...]) -> int:
    """Free minutes from the groups to the next fixed time."""
    free = timedelta()
    for before, after in pairwise(blocks):
        free += max(timedelta(), after.start - before.end)
        if after.fixed:
            return round(free.total_seconds() / 60)
    return 0
