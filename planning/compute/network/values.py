"""What a day's timeline is asked with, and what it answers; clock times are whole minutes since
00:00 on the day's own date, as they pass (see hours.py for nights when the clocks change)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from planning.compute.network.hours import Hours
from planning.compute.network.laws import Law
from planning.compute.values import Leg

Verdict = Literal["impossible", "does not fit", "risky", "fits"]
TRAVEL = "travel"  # a block of this kind is itself the way to the next place


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch of the day. `window` holds the whole block; `short` is its short form in minutes;
    `start_delay` how late it tends to begin by itself; `place` None is wherever people are; a
    fixed time that is not `movable` is held by others, like a registrar's; `wished` is the start
    the photographer chose, kept where the day allows: no conflict, no promise comes of it."""

    key: str
    law: Law
    title: str = ""
    kind: str = ""
    fixed: int | None = None
    window: tuple[int, int] | None = None
    after: tuple[str, ...] = ()
    place: str | None = None
    photographer: bool = True
    start_delay: Law | None = None
    short: int | None = None
    droppable: bool = False
    importance: float = 5
    movable: bool = True
    wished: int | None = None

    @property
    def name(self) -> str:
        return self.title.strip() or self.key


@dataclass(frozen=True, slots=True)
class Fault:
    """Something told wrongly that is no sum of minutes. `breaks`: no day can be promised with it.

    `message` is a message id with %(name)s fields filled from `values`.
    """

    code: str
    message: str
    values: Mapping[str, Any] = field(default_factory=dict)
    breaks: bool = True

    @property
    def text(self) -> str:
        return self.message % self.values


@dataclass(frozen=True, slots=True)
class Problem:
    """A day to plan: `wanted` is the chance (0 to 1) each fixed time should be kept with."""

    hours: Hours
    blocks: tuple[Block, ...]
    legs: tuple[Leg, ...] = ()
    home: str | None = None
    wanted: float = 0.9
    oddities: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Planned:
    """When a block can start and does; None where nothing holds it, or no plan exists."""

    key: str
    earliest: int | None
    latest: int | None
    start: int | None
    end: int | None


@dataclass(frozen=True, slots=True)
class Stretch:
    """From the start of one fixed block to the next; its slack is shared by all blocks in it."""

    origin: str
    until: str
    slack: int


@dataclass(frozen=True, slots=True)
class Post:
    """A time that holds a conflict at one end: block `key` is fixed at it, its window opens or
    closes then, or the day begins (with that block)."""

    kind: Literal["fixed", "opens", "closes", "day"]
    key: str
    at: int


@dataclass(frozen=True, slots=True)
class Term:
    """Minutes between two posts: those of block `key`, or planned for the drive to it (`leg`)."""

    kind: Literal["block", "drive"]
    key: str
    minutes: int
    leg: Leg | None = None


@dataclass(frozen=True, slots=True)
class Repair:
    """`change`: for each block, the fields that change ("drop": true leaves it out). "ask" is a
    move of a time that others hold, and all that is left."""

    kind: Literal["shorten", "leave_out", "together", "move", "widen", "ask"]
    change: Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Conflict:
    """From `first` on, `terms` in the order of the day end `short_by` minutes after `last`.
    Without any one of these the others can hold. Without terms, `first` itself is too late."""

    first: Post
    terms: tuple[Term, ...]
    last: Post
    short_by: int
    repairs: tuple[Repair, ...] = ()


@dataclass(frozen=True, slots=True)
class Promise:
    """The chance (0 to 1, days met / days simulated) that a fixed time or a window is kept."""

    key: str
    chance: float


@dataclass(frozen=True, slots=True)
class Tamed:
    """What the chance of `promise` gains if block `key` takes exactly its likely minutes."""

    key: str
    promise: str
    gain: float


@dataclass(frozen=True, slots=True)
class Cut:
    """A block in its short form of `minutes`, or left out where `minutes` is None."""

    key: str
    minutes: int | None


@dataclass(frozen=True, slots=True)
class CutPlan:
    """What to cut when block `after` ends `late` minutes late, so that `keeps` is still kept.

    Where not `reached`, `cuts` are those with the best chance and `otherwise` is what is left:
    to "move" `keeps`, to "ask" whether a time that others hold can move, or to "miss" a window.
    """

    after: str
    late: int
    keeps: str
    cuts: tuple[Cut, ...]
    chance: float
    reached: bool
    otherwise: Literal["move", "ask", "miss"] | None = None


@dataclass(frozen=True, slots=True)
class Leaving:
    """When to leave home: the earlier of the rule of a third and the simulated 95 in 100."""

    at: int
    rule: int
    simulated: int


@dataclass(frozen=True, slots=True)
class Answer:
    """`holds`: the day holds even if every block takes its time of so many (0 to 0.99) in all."""

    verdict: Verdict
    planned: tuple[Planned, ...]
    stretches: tuple[Stretch, ...]
    conflicts: tuple[Conflict, ...] = ()
    promises: tuple[Promise, ...] = ()
    windows: tuple[Promise, ...] = ()
    tame: tuple[Tamed, ...] = ()
    cuts: tuple[CutPlan, ...] = ()
    leaving: Leaving | None = None
    faults: tuple[Fault, ...] = ()
    holds: float | None = None
