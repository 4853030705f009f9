"""The frozen values that run through the house: what the brief holds and what a plan says.

Lengths are whole or decimal minutes with `minutes` in the name, angles are degrees, times are
aware datetimes in the wedding's zone. Texts that people read are English message ids: pages
translate them at the edge, so that nothing in here needs Django.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any


def N_(text: str) -> str:  # noqa: N802 - gettext's own name for "translate this later"
    """Mark a message id for makemessages (--keyword=N_); returns it unchanged."""
    return text


@dataclass(frozen=True, slots=True)
class Spot:
    """A point on the ground (WGS 84): degrees, north and east positive."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Contact:
    name: str
    role: str = ""
    side: str = ""
    phone: str = ""
    email: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Partner:
    """`called` is what the couple call each other; `word` is theirs too ("bride", or nothing)."""

    name: str
    called: str
    word: str = ""
    phone: str = ""
    email: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    key: str
    name: str
    uses: frozenset[str] = frozenset()
    address: str = ""
    spot: Spot | None = None
    coordinator: Contact | None = None
    wet_plan: str = ""
    not_allowed: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Moment:
    """A time the couple knows, or says it does not know yet (`at` is None)."""

    key: str
    kind: str
    title: str
    at: time | None = None
    unknown: bool = False
    place: str | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """A group photograph; `extra` counts people nobody names."""

    key: str
    title: str
    people: tuple[str, ...] = ()
    extra: int = 0
    must: bool = True
    minutes: float | None = None  # the photographer's own figure
    left_out: bool = False

    @property
    def size(self) -> int:
        return len(self.people) + self.extra


@dataclass(frozen=True, slots=True)
class GroupRule:
    """A rule of the order: `kind` is "before" (`one` before `other`), "first", "last" (`one`),
    or "free" (the person `one` has nothing after photograph `position`, counted from 1)."""

    kind: str
    one: str
    other: str = ""
    position: int = 0


@dataclass(frozen=True, slots=True)
class MustHave:
    """`says` is the kind in the reader's words."""

    text: str
    kind: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Care:
    """What to care for about a person; `says` is the kind in the reader's words."""

    kind: str
    person: str
    other: str = ""
    note: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Leg:
    """A drive; None is home. `map_minutes` is what the map says, without any margin."""

    origin: str | None
    destination: str | None
    map_minutes: int


@dataclass(frozen=True, slots=True)
class DayBrief:
    """One date of the wedding; `starts` and `ends` are the hours the photographer is booked for."""

    key: str
    date: date
    title: str = ""
    starts: time | None = None
    ends: time | None = None
    moments: tuple[Moment, ...] = ()


@dataclass(frozen=True, slots=True)
class Brief:
    """Everything a plan rests on, read once from the database.

    `meeting_at` and `visit_at` are local times of the wedding's zone; `changed_at` (UTC) is when
    the couple last kept anything.
    """

    wedding: str
    partners: tuple[Partner, ...]
    zone: str
    style: str = "one_place"
    days: tuple[DayBrief, ...] = ()
    loose_moments: tuple[Moment, ...] = ()
    places: tuple[Place, ...] = ()
    legs: tuple[Leg, ...] = ()
    contacts: tuple[Contact, ...] = ()
    helpers: tuple[Contact, ...] = ()
    suppliers: tuple[Contact, ...] = ()
    groups: tuple[Group, ...] = ()
    presence: str = "gathered"
    order_by: str = "largest"
    hand_order: tuple[str, ...] = ()
    walk_price: float = 0.2
    group_rules: tuple[GroupRule, ...] = ()
    same_people: tuple[tuple[str, str], ...] = ()
    two_people: tuple[tuple[str, str], ...] = ()
    must_haves: tuple[MustHave, ...] = ()
    cares: tuple[Care, ...] = ()
    matters: str = ""
    anything_else: str = ""
    saved_steps: frozenset[str] = frozenset()
    home: str = ""
    group_base_minutes: float = 2.5
    group_person_minutes: float = 0.1
    group_walk_minutes: float = 0.0
    meeting_at: datetime | None = None
    visit_at: datetime | None = None
    answers_due: date | None = None
    changed_at: datetime | None = None

    @property
    def names(self) -> str:
        return " & ".join(p.called for p in self.partners)


@dataclass(frozen=True, slots=True)
class Event:
    """Something the sun or moon does; without `at`, `reason` says why (`always_up`, ...)."""

    kind: str
    at: datetime | None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class LightSheet:
    """The light at one place on one date, or what it needs before it can say."""

    place: Place
    events: tuple[Event, ...] = ()

    def first(self, kind: str) -> Event | None:
        return next((event for event in self.events if event.kind == kind), None)


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch of the photographer's day."""

    key: str
    kind: str
    title: str
    start: datetime
    end: datetime
    place: Place | None = None
    fixed: bool = False
    note: str = ""

    @property
    def minutes(self) -> int:
        """Minutes that pass; two times of one zone, subtracted, would forget a clock change."""
        return round((self.end.timestamp() - self.start.timestamp()) / 60)


@dataclass(frozen=True, slots=True)
class Turn:
    """One group photograph in its place in the order; `assembling` is part of its minutes."""

    number: int
    group: Group
    minutes: float
    assembling: float = 0.0
    walks_in: tuple[str, ...] = ()
    free: tuple[str, ...] = ()
    starts: datetime | None = None


@dataclass(frozen=True, slots=True)
class OrderCost:
    """`waiting` is weighted guest-minutes beyond people's own photographs, `walks` is people."""

    waiting: float
    walks: int


@dataclass(frozen=True, slots=True)
class GroupOrder:
    """The order in use beside the others it is measured against.

    `by` is "best", "largest", "listed" or "hand"; `gap` is how far the best order found may be
    from the best there is (0 when proven, None while unknown).
    """

    by: str
    keys: tuple[str, ...]
    costs: Mapping[str, OrderCost]
    proven: bool
    gap: float | None
    faults: tuple[Any, ...] = ()

    @property
    def chosen(self) -> OrderCost:
        return self.costs[self.by]


@dataclass(frozen=True, slots=True)
class Finding:
    """Something the photographer should know.

    `message` is a message id with %(name)s fields filled from `values`; `step` is the couple's
    step (or the photographer's page) where it can be mended; `weight` is "missing", "clash"
    or "look".
    """

    code: str
    weight: str
    message: str
    values: Mapping[str, Any] = field(default_factory=dict)
    step: str = ""


@dataclass(frozen=True, slots=True)
class Shortfall:
    """What must happen between two fixed times takes `short_minutes` longer than there is."""

    after: Block
    before: Block
    between: tuple[Block, ...]
    short_minutes: int


@dataclass(frozen=True, slots=True)
class Day:
    """One date, planned. `unknown_drives` are pairs of places (None: home) nobody timed yet."""

    brief: DayBrief
    blocks: tuple[Block, ...] = ()
    light: tuple[LightSheet, ...] = ()
    leave_home: datetime | None = None
    shortfalls: tuple[Shortfall, ...] = ()
    unknown_drives: tuple[tuple[Place | None, Place | None], ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole wedding, planned: what every page, paper and calendar is drawn from."""

    brief: Brief
    days: tuple[Day, ...] = ()
    turns: tuple[Turn, ...] = ()
    order: GroupOrder | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def group_minutes(self) -> float:
        return round(sum(turn.minutes for turn in self.turns), 1)
