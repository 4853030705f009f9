"""What a day asks of cards, batteries and the night: arithmetic with its sources.

Frames are the sum over blocks of hours x frames an hour. The rates are `common practice, no
source`, until the photographer's own counts replace them (`pace`).

- Reserve on cards, 1.3: `common practice, no source`.
- Battery: an older one holds 0.8 of its rating, `common practice, no source`; at 0 degrees C any
  holds 0.8 (a maker's manual: 1,500 frames at 23 degrees, 1,200 at 0). The rating is the maker's
  by CIPA DC-002, a severe routine (a frame every 30 s, flash every second, off and on every ten):
  one body rated 950 gave 3,880 in continuous shooting, so what comes out is an upper bound. The
  photographer's own count of charges (`shots`) takes its place.
- Copies: GB x 1000 / MB/s / 60 minutes each, one after the other (plain arithmetic).
- A battery charges in 2.5 hours: `common practice, no source`; its charger's manual knows.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from ..planned import Block, Day
from .items import Item, of_kind

FRAMES_PER_HOUR = {
    "ready": 120,
    "setup": 80,
    "details": 80,
    "room": 80,
    "ceremony": 150,
    "confetti": 300,
    "groups": 120,
    "portraits": 150,
    "golden": 150,
    "speeches": 120,
    "cake": 150,
    "dance": 240,
    "party": 150,
    "meal": 10,
    "rest": 0,
    "travel": 0,
    "pack": 0,
    "night": 0,
    "meal_call": 0,
}
OTHERWISE = 100
RESERVE = 1.3
OLD, COLD = 0.8, 0.8
SPARE_SHARE = 3  # one battery in three, and at least one, is spare
CHARGE_HOURS = 2.5
# What a camera shows as "frames left" beside size of card / size of file, by four of one
# maker's tables (tests/evidence/kit.json).
COUNTER = (0.53, 0.61)


@dataclass(frozen=True, slots=True)
class Need:
    """Of the fullest day. `frames_by_block` are (block, frames); `cards_gb` is with the reserve,
    once; `copies` is 2 where a body of the bag records on both slots; `shots` what one charge was
    good for at this photographer's own weddings (0: not counted yet). Zeroes where no body says
    what its files take."""

    frames_by_block: tuple[tuple[Block, int], ...] = ()
    frames: int = 0
    raw_mb: float = 0.0
    gb: float = 0.0
    copies: int = 1
    cold: bool = False
    shots: int = 0

    @property
    def cards_gb(self) -> float:
        return round(self.gb * RESERVE, 1)

    @property
    def all_cards_gb(self) -> float:
        return round(self.cards_gb * self.copies, 1)


def frames_of(block: Block, pace: float = 1.0) -> int:
    """Frames of one block; `pace` is how this photographer's counts compare with the rates."""
    rate = FRAMES_PER_HOUR.get(block.kind, OTHERWISE)
    return round(block.minutes / 60 * rate * pace)


def need_of(
    days: tuple[Day, ...],
    items: tuple[Item, ...],
    pace: float = 1.0,
    cold: bool = False,
    shots: int = 0,
) -> Need:
    """What the fullest day of a wedding needs; cards are copied and emptied between days."""
    fullest: tuple[tuple[Block, int], ...] = ()
    for day in days:
        counted = tuple((block, frames_of(block, pace)) for block in day.blocks)
        fullest = max(fullest, counted, key=lambda each: sum(n for _block, n in each))
    bodies = [item for item in of_kind(items, "body") if item.taken]
    frames = sum(n for _block, n in fullest)
    raw = max((body.raw_mb for body in bodies), default=0.0)
    return Need(
        frames_by_block=tuple(each for each in fullest if each[1]),
        frames=frames,
        raw_mb=raw,
        gb=round(frames * raw / 1000, 1),
        copies=2 if any(body.slots > 1 for body in bodies) else 1,
        cold=cold,
        shots=shots,
    )


def rating_of(body: Item, need: Need) -> int:
    """Frames of one charge: the photographer's own count, else the maker's figure, else 0."""
    return need.shots or body.shots


def charges(battery: Item, rating: int, cold: bool) -> float:
    """Frames that one battery is good for; no more than that."""
    return rating * (OLD if battery.old else 1) * (COLD if cold else 1)


def batteries_for(frames: int, rating: int, *, old: bool = False, cold: bool = False) -> int:
    """Batteries of one rating for so many frames, without spare ones; ValueError without rating."""
    if rating <= 0:
        raise ValueError("rating")
    return ceil(frames / (rating * (OLD if old else 1) * (COLD if cold else 1)) - 1e-9)


def spare_batteries(count: int) -> int:
    return max(1, ceil(count / SPARE_SHARE)) if count else 0


def counter_shows(card_gb: float, raw_mb: float) -> tuple[int, int]:
    """Frames that a camera's own counter may show for an empty card: from, to."""
    by_division = card_gb * 1000 / raw_mb
    return int(by_division * COUNTER[0]), int(by_division * COUNTER[1])


def copy_minutes(gb: float, speed: float, copies: int = 2) -> int:
    """Minutes to write so many copies one after the other at `speed` MB/s."""
    return ceil(gb * 1000 / speed / 60 * copies - 1e-9)


def charging_hours(batteries: int, chargers: int) -> float:
    """Hours to charge them all, one in each charger at a time."""
    return ceil(batteries / chargers) * CHARGE_HOURS if chargers else 0.0
