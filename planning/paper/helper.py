"""The calling list of one helper: whom to fetch next, and who may go.

It is built from a list of what may stand on it: no care notes, no phone but the photographer's,
nothing of the couple's but the titles and names of their groups.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from itertools import zip_longest
from typing import Any

from django.utils.translation import gettext as _

from planning.compute.planned import Block, Plan, Turn
from planning.compute.values import Contact

from .calls import knows
from .subject import Reader, Subject


@dataclass(frozen=True)
class Step:
    """A group being taken, and the one to be fetched for meanwhile; None after the last."""

    turn: Turn
    following: Turn | None


@dataclass(frozen=True)
class Calling:
    """`others` are the other helpers' names, each with whose guests they know."""

    knows: str
    others: tuple[tuple[str, str], ...]
    starts: datetime | None
    place: str
    steps: tuple[Step, ...]


def helpers(subject: Subject) -> list[Reader]:
    """One list for each helper; one for whoever helps where nobody is named yet."""
    named = [Reader(str(n), h.name) for n, h in enumerate(subject.brief.helpers, 1)]
    return named or [Reader("", "")]


def has_turns(subject: Subject) -> bool:
    return bool(subject.plan.turns)


def calling(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"list": calling_of(subject.plan, reader.key), "studio": _studio(subject)}


def _studio(subject: Subject) -> tuple[str, str]:
    return subject.studio.name, subject.studio.phone


def calling_of(plan: Plan, key: str) -> Calling:
    """The list of the helper who stands at place `key` of the couple's list, counted from 1."""
    numbered = {str(n): helper for n, helper in enumerate(plan.brief.helpers, 1)}
    mine = numbered.get(key)
    block = _groups_block(plan)
    return Calling(
        knows=knows(plan.brief, mine.side) if mine and mine.side else "",
        others=tuple(_named(plan, h) for n, h in numbered.items() if n != key),
        starts=block.start if block else None,
        place=block.place.name if block and block.place and block.place.key else "",
        steps=steps_of(plan.turns),
    )


def steps_of(turns: tuple[Turn, ...]) -> tuple[Step, ...]:
    return tuple(Step(*pair) for pair in zip_longest(turns, turns[1:]))


def _named(plan: Plan, helper: Contact) -> tuple[str, str]:
    return helper.name, knows(plan.brief, helper.side) if helper.side else _("helps too")


def _groups_block(plan: Plan) -> Block | None:
    """Where the groups are taken, by whichever of the two photographers."""
    days = [d for day in plan.days for d in (day, day.second) if d]
    return next((b for day in days for b in day.blocks if b.kind == "groups"), None)
