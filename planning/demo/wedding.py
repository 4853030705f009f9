"""The shape of an invented wedding, and the short forms its module is written in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, time

from planning.compute.values import Brief, Contact, Group, Moment, MustHave, Partner

EVERY_STEP = frozenset(
    {"two-of-you", "day", "places", "people", "groups", "photographs", "care", "sharing"},
)
PHOTOGRAPHER = {
    "home": "Hallowby",
    "group_base_minutes": 2.5,
    "group_person_minutes": 0.1,
    "group_walk_minutes": 5 / 60,
}


def as_now(brief: Brief) -> Brief:
    return brief


@dataclass(frozen=True, slots=True)
class DemoAgreement:
    """A summary that was shared, and confirmed where `by` says by whom.

    `before` takes back what has changed since; `notes` are (answer, note, into the summary) of
    answers that are settled, `points` what is open, `objections` what the couple said.
    """

    shared_at: datetime
    by: str = ""
    confirmed_at: datetime | None = None
    before: Callable[[Brief], Brief] = as_now
    notes: tuple[tuple[str, str, bool], ...] = ()
    points: tuple[str, ...] = ()
    objections: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DemoWedding:
    """What the couple and the photographer have said so far, and when they said it.

    `saved_at` is the last time the couple kept a step; `drafts` are steps they have begun, with
    what they typed as the page would post it; `language` is what they read and write.
    """

    brief: Brief
    saved_at: datetime | None = None
    drafts: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    sent_at: datetime | None = None
    language: str = "en-gb"
    agreement: DemoAgreement | None = None


def clock(text: str) -> time:
    return time.fromisoformat(text)


def partner(name: str, called: str, word: str = "", phone: str = "", email: str = "") -> Partner:
    return Partner(name, called, word, phone, email)


def moment(kind: str, title: str, at: str = "", place: str | None = None) -> Moment:
    """A time the couple know; without `at` they do not know it yet."""
    key = f"{kind.replace('_', '-')}-{at.replace(':', '') or 'unknown'}"
    return Moment(key, kind, title, clock(at) if at else None, not at, place)


def must(title: str, *people: str, extra: int = 0) -> Group:
    return Group("", title, people, extra, must=True)


def nice(title: str, *people: str, extra: int = 0) -> Group:
    return Group("", title, people, extra, must=False)


def everybody(title: str, altogether: int) -> Group:
    return Group("", title, extra=altogether, everyone=True)


def numbered(*groups: Group) -> tuple[Group, ...]:
    return tuple(replace(group, key=f"group-{i}") for i, group in enumerate(groups, 1))


def helper(name: str, side: str, phone: str) -> Contact:
    return Contact(name, side=side, phone=phone)


def person(name: str, role: str, phone: str, side: str = "both", email: str = "") -> Contact:
    return Contact(name, role, side, phone, email)


def wish(text: str, kind: str = "") -> MustHave:
    return MustHave(text, kind)
