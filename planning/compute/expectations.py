"""What the list of groups costs, and what would make it cheaper."""

from __future__ import annotations

from dataclasses import dataclass, replace

from .blocks import fillers_of
from .groups import CALLING_MINUTES, turns_of
from .order import measure
from .planned import (
    Block,
    Day,
    GroupOrder,
    Turn,
)
from .sequence import as_problem, group_minutes, named, parties
from .values import Brief, Group

ALIKE = 0.5  # own choice: half of both groups' people in common is worth a look


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
    """Minutes the day has for the groups, without calling them together, until the fixed block
    `before`; the drinks that `gives_way` would have taken `given` of them."""

    minutes: int
    before: Block
    gives_way: Block | None = None
    given: int = 0


@dataclass(frozen=True, slots=True)
class Wait:
    """One person's time at the groups as (start, end, in a photograph), minutes from the first;
    or that of `more` people whom nobody names, who are counted with the group `where`."""

    name: str
    spans: tuple[tuple[float, float, bool], ...]
    more: int = 0
    where: str = ""

    @property
    def until(self) -> float:
        return self.spans[-1][1]


def savings(brief: Brief, order: GroupOrder) -> dict[str, Saving]:
    problem = as_problem(brief)
    groups = {group.key: group for group in brief.groups if not group.left_out}
    whole = measure(problem, order.keys).waiting_minutes
    took = minutes_of(brief, order.keys)
    found = {}
    for key, group in groups.items():
        others = tuple(p for p in problem.photographs if p.key != key)
        keys = tuple(k for k in order.keys if k != key)
        rest = measure(
            type(problem)(others, presence=problem.presence, weights=problem.weights), keys
        )
        inside, alike = _neighbours(brief, group, groups)
        saved = whole - rest.waiting_minutes
        minutes = round(took - minutes_of(without(brief, key), keys), 1)
        joined = _joined_minutes(brief, group, alike) if alike else 0.0
        title = alike.title if alike else ""
        found[key] = Saving(key, minutes, saved, inside, title, joined)
    return found


def without(brief: Brief, key: str) -> Brief:
    groups = (replace(g, left_out=g.left_out or g.key == key) for g in brief.groups)
    return replace(brief, groups=tuple(groups))


def minutes_of(brief: Brief, keys: tuple[str, ...]) -> float:
    """Minutes of an order, walking in included."""
    return round(sum(turn.minutes for turn in turns_of(brief, keys)), 1)


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
    """Everybody in the order they may go; those whom nobody names together, by their groups."""
    found: dict[str, Wait] = {}
    titles = {group.key: group.title for group in brief.groups}
    now = 0.0
    for turn in turns:
        end = round(now + turn.minutes, 1)
        there = [(key, name, 0, "") for key, name in named(brief, turn.group).items()]
        there += [(f"+{k}", "", n, titles[k]) for k, n in parties(brief, turn.group).items() if n]
        for key, name, more, where in there:
            spans = found[key].spans if key in found else ()
            since = spans[-1][1] if spans else now if brief.presence == "called" else 0.0
            waited = ((since, now, False),) if since < now else ()
            spans = (*spans, *waited, (now, end, True))
            known = found.get(key) or Wait(name, (), more, where)
            found[key] = replace(known, spans=spans)
        now = end
    return sorted(found.values(), key=lambda wait: wait.until)


def room_for_groups(brief: Brief, days: tuple[Day, ...]) -> Room | None:
    """What the day has for the groups, drinks giving way; None with no fixed time after them."""
    for day in days:
        groups = next((block for block in day.blocks if block.kind == "groups"), None)
        if groups is None:
            continue
        for slack in day.slack:
            if slack.after.start <= groups.start < slack.before.start:
                left = max(groups.minutes + slack.minutes - CALLING_MINUTES, 0)
                behind = (b for b in day.blocks if groups.start <= b.start < slack.before.start)
                giving = [block for block in behind if block.kind in fillers_of(brief)]
                given = sum(block.minutes for block in giving)
                return Room(left, slack.before, giving[-1] if giving else None, min(given, left))
    return None
