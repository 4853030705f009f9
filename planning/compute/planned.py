"""What the pure half gives back: one frozen plan, which every page, paper and calendar shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any

from .values import Brief, DayBrief, Group, Place

if TYPE_CHECKING:
    from .bag.check import Bag
    from .light import Moon, SecondOpinion, SunPosition, Window
    from .network import Answer, Problem, Repair


@dataclass(frozen=True, slots=True)
class Event:
    """Something the sun or moon does; without `at`, `reason` says why (`always_up`, ...)."""

    kind: str
    at: datetime | None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch of the photographer's day.

    `assumed` marks what only the template says, `untimed` a drive that nobody has timed; `who` is
    "me", "second", "both" or "either"; `couple` whether it needs the two of them.
    """

    key: str
    kind: str
    title: str
    start: datetime
    end: datetime
    place: Place | None = None
    fixed: bool = False
    note: str = ""
    assumed: bool = False
    untimed: bool = False
    who: str = "me"
    couple: bool = False

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
    """What must happen from one time to the next takes `short_minutes` longer than there is.

    `after` and `before` are blocks with a time that holds them (None: the day itself), at the
    instants `starts` and `until`; what `holds` there is "fixed", or a window that "opens" or
    "closes", or the "day". `between` are the blocks that take the time, the first one
    included, and `drives` the minutes planned on the road. Each of the `repairs` mends it.
    """

    after: Block | None
    before: Block | None
    between: tuple[Block, ...]
    short_minutes: int
    starts: datetime
    until: datetime
    holds: tuple[str, str] = ("fixed", "fixed")
    drives: int = 0
    repairs: tuple[Repair, ...] = ()


@dataclass(frozen=True, slots=True)
class Kept:
    """The chance (0 to 1) that a block begins in time, or ends within its window."""

    block: Block
    chance: float


@dataclass(frozen=True, slots=True)
class Slack:
    """Minutes between two fixed times that nothing fills; all blocks between share them."""

    after: Block
    before: Block
    minutes: int


@dataclass(frozen=True, slots=True)
class Tame:
    """What the chance of `promise` gains (0 to 1) if `block` takes just its likely minutes."""

    block: Block
    promise: Block
    gain: float


@dataclass(frozen=True, slots=True)
class Day:
    """One date, planned. `unknown_drives` are pairs of places (None: home) nobody timed yet.

    `verdict` is "fits", "risky", "does not fit", "impossible", "unknown" (a drive is) or "" where
    nothing holds the day. A day that does not fit is told as it would run, its shortfalls named.
    `gone` are the keys and titles of blocks that are left out, `squeezed` of those that give way
    until no time is left for them. `wet` is the day when it rains,
    `second` that of the second photographer; `problem` and `answer` are what the network said.
    """

    brief: DayBrief
    blocks: tuple[Block, ...] = ()
    light: tuple[LightSheet, ...] = ()
    leave_home: datetime | None = None
    verdict: str = ""
    shortfalls: tuple[Shortfall, ...] = ()
    promises: tuple[Kept, ...] = ()
    windows: tuple[Kept, ...] = ()
    slack: tuple[Slack, ...] = ()
    unknown_drives: tuple[tuple[Place | None, Place | None], ...] = ()
    gone: tuple[tuple[str, str], ...] = ()
    squeezed: tuple[tuple[str, str], ...] = ()
    wet: Day | None = None
    second: Day | None = None
    problem: Problem | None = None
    answer: Answer | None = None

    def block(self, key: str) -> Block | None:
        return next((block for block in self.blocks if block.key == key), None)


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
    bag: Bag | None = None

    @property
    def group_minutes(self) -> float:
        return round(sum(turn.minutes for turn in self.turns), 1)
