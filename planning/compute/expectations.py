"""What the list of groups costs, and what would make it cheaper."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from .blocks import ONE_PLACE
from .order import measure
from .planned import (
    Block,
    Day,
    GroupOrder,
    Turn,
)
from .sequence import as_problem, group_minutes, named
from .travel import find_leg, planned_minutes
from .values import Brief, Group

ALIKE = 0.5  # own choice: half of both groups' people in common is worth a look
GIVE_WAY = {b.kind for b in ONE_PLACE if b.fills}


@dataclass(frozen=True, slots=True)
class Saving:
    """What leaving a group out saves in this order, and which other group nearly shows it.

    `inside` is the title of a group that holds everybody in this one; `alike` of one that could
    be taken together with it, which saves `joined_minutes`.
    """

    key: str
    minutes: float
    guest_minutes: float
    inside: str = ""
    alike: str = ""
    joined_minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class Room:
    """Minutes the day has for the groups until the fixed block `before`; `gives_way` are blocks
    that would take none of it then."""

    minutes: int
    before: Block
    gives_way: tuple[Block, ...] = ()


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
        saved = whole - rest.waiting_minutes
        minutes = group_minutes(group, brief)
        joined = _joined_minutes(brief, group, alike) if alike else 0.0
        title = alike.title if alike else ""
        found[key] = Saving(key, minutes, saved, inside, title, joined)
    return found


def _neighbours(brief: Brief, group: Group, groups: dict[str, Group]) -> tuple[str, Group | None]:
    """The group that holds this one whole, or the one most like it; everybody holds all."""
    own = set(named(brief, group))
    inside, alike, most = "", None, ALIKE
    for other in groups.values():
        if other.key == group.key or group.extra or other.everyone or not own:
            continue
        theirs = set(named(brief, other))
        common = len(own & theirs) / len(own | theirs)
        if own < theirs or (own == theirs and other.extra):
            inside = inside or other.title
        elif common > most:
            alike, most = other, common
    return inside, None if inside else alike


def _joined_minutes(brief: Brief, group: Group, other: Group) -> float:
    """What one photograph of both saves against two."""
    both = replace(group, people=group.people + other.people, extra=other.extra, minutes=None)
    apart = group_minutes(group, brief) + group_minutes(other, brief)
    return max(0.0, round(apart - group_minutes(both, brief), 1))


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


def room_for_groups(brief: Brief, days: tuple[Day, ...]) -> Room | None:
    """What the day has for the groups, drinks giving way; None with no fixed time after them."""
    for day in days:
        for i, block in enumerate(day.blocks):
            if block.kind == "groups":
                short = sum(s.short_minutes for s in day.shortfalls if block in s.between)
                return _until_fixed(brief, day.blocks[i:], block.minutes - short)
    return None


def _until_fixed(brief: Brief, blocks: tuple[Block, ...], minutes: int) -> Room | None:
    gives_way = []
    for before, after in pairwise(blocks):
        free = (after.start - before.end).total_seconds() / 60
        minutes += max(0, round(free) - _drive(brief, before, after))
        if after.kind in GIVE_WAY:
            minutes += after.minutes
            gives_way += [after] if after.minutes else []
        elif after.fixed:
            return Room(max(minutes, 0), after, tuple(gives_way))
    return None


def _drive(brief: Brief, before: Block, after: Block) -> int:
    """Planned minutes of the way between two blocks."""
    if not before.place or not after.place or before.place.key == after.place.key:
        return 0
    leg = find_leg(brief.legs, before.place.key, after.place.key)
    return planned_minutes(leg.map_minutes) if leg else 0
