"""What the photographer settled about the blocks of a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time

from .template import Minutes

ME, SECOND, BOTH, EITHER = "me", "second", "both", "either"


@dataclass(frozen=True, slots=True)
class Wet:
    """A block when it rains: None keeps what it is when it is fair."""

    minutes: Minutes | None = None
    place: str | None = None
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Settled:
    """What the photographer decided about the block `key`; None keeps what the couple or the
    template say.

    A block with a `kind` is the photographer's own, after the block `follows`. `at` fixes its
    time, and `said` is what the couple's moment said when it was settled; `loose` lets a time of
    the couple's go. `wished` is a start that is kept where the day allows. `opens` and `closes`
    hold the whole block.
    """

    key: str
    kind: str = ""
    title: str = ""
    follows: str = ""
    minutes: Minutes | None = None
    at: time | None = None
    said: time | None = None
    loose: bool = False
    wished: time | None = None
    opens: time | None = None
    closes: time | None = None
    place: str | None = None
    who: str = ""
    short: int | None = None
    droppable: bool | None = None
    importance: int | None = None
    movable: bool | None = None
    left_out: bool = False
    wet: Wet = Wet()
