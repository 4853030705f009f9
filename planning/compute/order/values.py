"""What the order of the group photographs is asked with, and what it answers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

Presence = Literal["gathered", "called"]

# Common practice, no source: a group takes some minutes to settle, and longer the bigger it is.
BASE_MINUTES = 2.5
PERSON_MINUTES = 0.1


@dataclass(frozen=True, slots=True)
class Photograph:
    """One group photograph; `extra` counts people nobody names, `minutes` is more than 0."""

    key: str
    people: tuple[str, ...] = ()
    extra: int = 0
    minutes: float | None = None
    title: str = ""

    @property
    def size(self) -> int:
        return len(self.people) + self.extra

    @property
    def length(self) -> float:
        """Minutes, from the size of the group when nobody gave any."""
        if self.minutes is None:
            return round(BASE_MINUTES + PERSON_MINUTES * self.size, 6)
        return self.minutes

    @property
    def name(self) -> str:
        return self.title or self.key


@dataclass(frozen=True, slots=True)
class Before:
    """Photograph `one` is taken somewhere before photograph `other`."""

    one: str
    other: str


@dataclass(frozen=True, slots=True)
class First:
    group: str


@dataclass(frozen=True, slots=True)
class Last:
    group: str


@dataclass(frozen=True, slots=True)
class Free:
    """The person has no photograph after the one at `by_position` (counted from 1)."""

    person: str
    by_position: int


@dataclass(frozen=True, slots=True)
class Apart:
    """One of the two is never in the photograph right before or after one with the other;
    `crowds` are photographs of so many that nobody minds them."""

    one: str
    other: str
    crowds: tuple[str, ...] = ()


Rule = Before | First | Last | Free | Apart


@dataclass(frozen=True, slots=True)
class Problem:
    """A list of group photographs and what matters in its order.

    `gathered`: everybody waits from the start and leaves after their last photograph; `called`:
    everybody comes for their first and leaves after their last. `walk_price` is guest-minutes
    for each person who walks in or out between two photographs (unnamed people walk too).
    `weights` are 1 where nothing is said. `seconds` limits the search.
    """

    photographs: tuple[Photograph, ...]
    presence: Presence = "gathered"
    walk_price: float = 0.0
    seconds: float = 1.0
    largest_first: bool = False
    weights: Mapping[str, float] = field(default_factory=dict)
    rules: tuple[Rule, ...] = ()

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(photograph.key for photograph in self.photographs)


@dataclass(frozen=True, slots=True)
class Fault:
    """A rule or wish that no order can keep, or that this order does not keep.

    `message` is a message id with %(name)s fields filled from `values`; `rules` are the rules
    that clash, in the order they were given.
    """

    code: str
    message: str
    values: Mapping[str, Any] = field(default_factory=dict)
    rules: tuple[Rule, ...] = ()

    @property
    def text(self) -> str:
        return self.message % self.values


@dataclass(frozen=True, slots=True)
class Measure:
    """What an order costs: weighted guest-minutes, and walks counted in people."""

    presence_minutes: float
    waiting_minutes: float
    walks: int
    cost: float


@dataclass(frozen=True, slots=True)
class Freed:
    """After which position (from 1) and minute a person has no photograph left."""

    person: str
    after_position: int
    minute: float


@dataclass(frozen=True, slots=True)
class Answer:
    """An order with its certificate.

    `bound` is a lower bound of the cost of every order that keeps the rules (those not set
    aside as a fault); `gap` is cost / bound - 1, so "within 100 x gap % of the best", or None
    while nothing is known. `cut` says what stopped the search: "", "work" (the same on every
    machine) or "clock".
    """

    order: tuple[str, ...]
    measure: Measure
    bound: float
    proven: bool
    gap: float | None
    seconds: float
    cut: str
    as_listed: Measure
    largest_first: Measure
    freed: tuple[Freed, ...]
    faults: tuple[Fault, ...]
