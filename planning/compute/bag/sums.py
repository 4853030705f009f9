"""What the bag amounts to beside what the day needs: batteries, cards by size, the night's copies.

The formulas and their sources are in `need.py`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil

from .cards import frames_on
from .hire import SIZES
from .items import Item, of_kind, several, tidy
from .need import (
    Need,
    batteries_for,
    charges,
    charging_hours,
    copy_minutes,
    counter_shows,
    rating_of,
    spare_batteries,
)


@dataclass(frozen=True, slots=True)
class Power:
    """One type of battery, if it had to do the whole day. `wanted` and `spare` count new ones,
    `good` is frames that those in the bag are good for, `hours` charges them all the night before
    (0: there is no charger for it)."""

    name: str
    shots: int
    new: int
    old: int
    good: int
    wanted: int
    spare: int
    chargers: int
    hours: float


@dataclass(frozen=True, slots=True)
class Copying:
    """`minutes` for two copies one after the other at `speed` MB/s, the slowest link (`link`);
    `checked` with both read back and compared."""

    speed: float
    link: str
    minutes: int
    checked: int


@dataclass(frozen=True, slots=True)
class Counter:
    """Frames that the camera's own counter may show for an empty card, and those that fit."""

    card: Item
    low: int
    high: int
    fits: int


@dataclass(frozen=True, slots=True)
class Sums:
    """`sizes` are (GB, how many cards of that size alone would do)."""

    powers: tuple[Power, ...] = ()
    sizes: tuple[tuple[float, int], ...] = ()
    counter: Counter | None = None
    copying: Copying | None = None


def sums_of(items: Iterable[Item], need: Need) -> Sums:
    things = tuple(items)
    return Sums(
        powers=tuple(_powers(things, need)),
        sizes=tuple((gb, cards_of(gb, need)) for gb in SIZES) if need.gb else (),
        counter=_counter(things, need),
        copying=_copying(things, need),
    )


def cards_of(gb: float, need: Need) -> int:
    """Cards of that size that take the day, one in each slot that records, never one alone."""
    half = ceil(need.frames / 2)
    each = min(half, frames_on(gb, need.raw_mb))
    return ceil(need.frames / each) * need.copies if each else 0


def _powers(items: tuple[Item, ...], need: Need) -> Iterable[Power]:
    """Of bodies whose charge is rated or counted; the best body of a type says how much."""
    best: dict[str, Item] = {}
    for body in of_kind(items, "body"):
        key = tidy(body.power)
        if rating_of(body, need) > (rating_of(best[key], need) if key in best else 0):
            best[key] = body
    for key, body in best.items():
        mine = [b for b in of_kind(items, "battery") if tidy(b.power) == key]
        chargers = sum(key in several(c.power) for c in of_kind(items, "charger"))
        shots = rating_of(body, need)
        wanted = batteries_for(need.frames, shots, cold=need.cold)
        yield Power(
            name=body.power,
            shots=shots,
            new=sum(not battery.old for battery in mine),
            old=sum(battery.old for battery in mine),
            good=int(sum(charges(battery, shots, need.cold) for battery in mine) + 1e-9),
            wanted=wanted,
            spare=spare_batteries(wanted),
            chargers=chargers,
            hours=charging_hours(len(mine), chargers),
        )


def _counter(items: tuple[Item, ...], need: Need) -> Counter | None:
    card = max(of_kind(items, "card"), key=lambda each: each.gb, default=None)
    if card is None or not need.raw_mb:
        return None
    low, high = counter_shows(card.gb, need.raw_mb)
    return Counter(card, low, high, int(card.gb * 1000 / need.raw_mb))


def _copying(items: tuple[Item, ...], need: Need) -> Copying | None:
    """By the slowest of the fastest reader and the two fastest drives, as far as they are known."""
    readers = sorted(of_kind(items, "reader"), key=lambda each: -each.speed)[:1]
    drives = sorted(of_kind(items, "drive"), key=lambda each: -each.speed)[:2]
    links = [each for each in (*readers, *drives) if each.speed]
    if not links or not need.gb:
        return None
    slowest = min(links, key=lambda each: each.speed)
    once, checked = (copy_minutes(need.gb, slowest.speed, copies) for copies in (2, 4))
    return Copying(slowest.speed, slowest.title, once, checked)
