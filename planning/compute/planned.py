"""What the pure half gives back: one frozen plan, which every page, paper and calendar shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any

from .values import Brief, DayBrief, Group, Place

if TYPE_CHECKING:
    from .light import Moon, SecondOpinion, SunPosition, Window


@dataclass(frozen=True, slots=True)
class Event:
    """Something the sun or moon does; without `at`, `reason` says why (`always_up`, ...)."""

    kind: str
    at: datetime | None
    reason: str | None = None


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
class SunThen:
    """The sun over a place at a moment, and on people who face `facing` (None: nobody said).

    `clear`: it stands above level and above the skyline. `lit` is as in `facing_light`, and None
    as well where nobody said which way they face.
    """

    at: datetime
    sun: SunPosition
    clear: bool
    facing: float | None = None
    lit: str | None = None
    near_lens: bool = False


@dataclass(frozen=True, slots=True)
class BlockLight:
    """What the sun does from a block's start to its end."""

    block: Block
    first: SunThen
    last: SunThen


@dataclass(frozen=True, slots=True)
class LightSheet:
    """The light at one place on one date, or what it needs before it can say.

    Its day runs from the midnight of the sun before the date's solar noon to the one after it,
    so that dawn belongs to the morning and dusk to the evening of the wedding, whatever the
    clock says. `skyline` is when the sun reaches and leaves the place; empty where nobody said
    what hides it. `lowest` is the sun's altitude at the midnight that ends the day.
    """

    place: Place
    events: tuple[Event, ...] = ()
    noon: SunThen | None = None
    lowest: float | None = None
    windows: tuple[Window, ...] = ()
    skyline: tuple[Event, ...] = ()
    moon_events: tuple[Event, ...] = ()
    moon: Moon | None = None
    second: SecondOpinion | None = None
    blocks: tuple[BlockLight, ...] = ()

    def first(self, kind: str) -> Event | None:
        return next((event for event in self.events if event.kind == kind), None)

    def window(self, kind: str, part: str) -> Window | None:
        return next((w for w in self.windows if w.kind == kind and w.part in {part, "day"}), None)

    def of(self, block: Block) -> BlockLight | None:
        return next((lit for lit in self.blocks if lit.block == block), None)


@dataclass(frozen=True, slots=True)
class Turn:
    """One group photograph in its place in the order; `assembling` is part of its minutes.

    `extra` people stand in it whom nobody names; of these `more_walk_in` and `more_free`.
    """

    number: int
    group: Group
    minutes: float
    assembling: float = 0.0
    extra: int = 0
    more_walk_in: int = 0
    more_free: int = 0
    walks_in: tuple[str, ...] = ()
    free: tuple[str, ...] = ()
    starts: datetime | None = None

    @property
    def own_minutes(self) -> float:
        """Minutes of the photograph itself."""
        return round(self.minutes - self.assembling, 1)


@dataclass(frozen=True, slots=True)
class OrderCost:
    """`waiting` is weighted guest-minutes beyond people's own photographs, `walks` is people."""

    waiting: float
    walks: int


@dataclass(frozen=True, slots=True)
class GroupOrder:
    """The order in use beside the others it is measured against.

    `by` is "best", "largest", "listed" or "hand"; `gap` is how far the best order found may be
    from the best there is (0 when proven, None while unknown), of those that keep the rules
    where there are any (`ruled`).
    """

    by: str
    orders: Mapping[str, tuple[str, ...]]
    costs: Mapping[str, OrderCost]
    proven: bool
    gap: float | None
    ruled: bool = False
    faults: tuple[Any, ...] = ()

    @property
    def keys(self) -> tuple[str, ...]:
        return self.orders[self.by]

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
class Visit:
    """The venue visit: `there` is the sun as it stands then, `wanted` as it will in the middle of
    `block`, `separation` the degrees between the two; each None where it cannot be known."""

    at: datetime
    place: Place | None = None
    block: Block | None = None
    there: SunThen | None = None
    wanted: SunThen | None = None
    separation: float | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole wedding, planned: what every page, paper and calendar is drawn from."""

    brief: Brief
    days: tuple[Day, ...] = ()
    turns: tuple[Turn, ...] = ()
    order: GroupOrder | None = None
    findings: tuple[Finding, ...] = ()
    visit: Visit | None = None

    @property
    def group_minutes(self) -> float:
        return round(sum(turn.minutes for turn in self.turns), 1)
