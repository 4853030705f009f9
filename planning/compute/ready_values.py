"""What a ready list rests on, and what it says, as frozen values.

Dates are those of the wedding's own calendar, clock times those of its zone, instants are aware.
Texts are English message ids with %(name)s fields, filled from `values` at the edge.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

from .values import N_, DayBrief

PRACTICE = N_("common practice, no source")
LAST_THING = time(23, 59)


@dataclass(frozen=True, slots=True)
class Due:
    """By when something must be true.

    `when` is "before" (so many whole `days` before the first day, once for the wedding), or, for
    each day: "evening" (of the day before), "morning", "night" (after it), "after" (the day after
    it). `at` is a clock time; "morning" and "night" follow the booked hours instead.
    """

    when: str
    days: int = 0
    at: time = time(18)


@dataclass(frozen=True, slots=True)
class Item:
    """Something that must be true; `page` is the screen on which it is done, `only` names the
    condition under which it applies at all, `kind` the insurance that it asks for."""

    key: str
    title: str
    due: Due
    why: str
    page: str = ""
    only: str = ""
    kind: str = ""
    caution: str = ""
    source: str = PRACTICE
    own: bool = False  # the studio's, in the studio's own words


@dataclass(frozen=True, slots=True)
class Tick:
    """What somebody of the studio said of an entry; `state` is "done" or "not_needed", `number`
    the row's own."""

    key: str
    state: str
    by: str
    at: datetime
    note: str = ""
    number: int = 0


@dataclass(frozen=True, slots=True)
class Policy:
    """An insurance: from and until which date (both included), and in which countries.

    `countries` are ISO 3166 codes; none means that it holds anywhere.
    """

    kind: str
    insurer: str
    starts: date
    ends: date
    countries: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Known:
    """What the app knows of an item by itself: whether it is done, and how it knows."""

    done: bool
    message: str
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ReadyBrief:
    """One wedding as its ready list needs it; cheap to read for many weddings at once.

    `days` carry dates and booked hours alone. `begun` is whether the couple have opened their
    link and kept anything, `missing` how many answers are; `met` whether anything was settled at
    the meeting or shared after it; `cards_hold` are the names of earlier weddings whose cards
    have no two copies yet; `goes` things are in the bag and so many of them `packed`, and its
    batteries take `charging_hours` in the studio's chargers (0: nobody knows). `kinds` are the
    insurances that the studio wants for every wedding.
    """

    wedding: str
    names: str
    zone: str
    days: tuple[DayBrief, ...] = ()
    booked_at: datetime | None = None
    countries: frozenset[str] = frozenset()
    home_country: str = ""
    home_zone: str = ""
    kinds: frozenset[str] = frozenset()
    policies: tuple[Policy, ...] = ()
    own: tuple[Item, ...] = ()
    ticks: Mapping[str, Tick] = field(default_factory=dict)
    begun: bool = False
    sent_at: datetime | None = None
    missing: int = 0
    answers_due: date | None = None
    meeting_at: datetime | None = None
    met: bool = False
    agreed_at: datetime | None = None
    shared: bool = False
    visit_at: datetime | None = None
    online: str = ""
    sharing_asked: bool = True
    groups: int = 0
    helpers: tuple[str, ...] = ()
    coordinators: tuple[str, ...] = ()
    second: bool = False
    goes: int = 0
    packed: int = 0
    charging_hours: float = 0.0
    cards_hold: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a ready list: an item, and for most the day it belongs to.

    `mark` is "done", "not_needed", "late", "now" (booked too late for its usual date), "today",
    "week", "later", "undated" or "passed" (its day is over). Done without a `tick` means that
    the app knows it. `waits_for` says what must be true first; until then nobody may tick it.
    """

    key: str
    item: Item
    mark: str
    day: DayBrief | None = None
    due: datetime | None = None
    tick: Tick | None = None
    known: Known | None = None
    waits_for: tuple[Known, ...] = ()

    @property
    def is_open(self) -> bool:
        return self.mark not in {"done", "not_needed", "passed"}


@dataclass(frozen=True, slots=True)
class Ready:
    """A wedding's ready list in the order of when things are due; `over` once its days are."""

    brief: ReadyBrief
    entries: tuple[Entry, ...]
    over: bool = False

    def marked(self, *marks: str) -> tuple[Entry, ...]:
        return tuple(entry for entry in self.entries if entry.mark in marks)

    @property
    def open(self) -> tuple[Entry, ...]:
        return tuple(entry for entry in self.entries if entry.is_open)

    def entry(self, key: str) -> Entry | None:
        return next((entry for entry in self.entries if entry.key == key), None)
