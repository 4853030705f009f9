"""The jobs of a day that must be done whatever fails, each as a question to a set of things.

Every job is monotone: more things never make it undone. That is what lets one thing be taken out
at a time, and others be put in as a cure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..values import N_
from .cards import hold_all
from .items import tidy
from .need import Need, charges, rating_of
from .stock import Stock

WIDE, LONGER, FAST = 35.0, 70.0, 2.0  # mm and f-number; common practice, no source
DRIVES = 2  # two copies that night, on two things


@dataclass(frozen=True)
class Job:
    """`title` says what is done, `hire` what to look for where the studio has no cure, `asks` the
    kinds of things that it can hang on."""

    key: str
    title: str
    hire: str
    asks: frozenset[str]
    done: Callable[[Stock, Need], bool]


def _camera(stock: Stock, need: Need) -> bool:
    return bool(stock.bodies)


def _wide(stock: Stock, need: Need) -> bool:
    return any(lens.wide <= WIDE for lens in stock.lenses)


def _longer(stock: Stock, need: Need) -> bool:
    return any(lens.long >= LONGER for lens in stock.lenses)


def _dark(stock: Stock, need: Need) -> bool:
    """A flash with its batteries, or a fast lens; a flash without a fitting has its own."""
    powers = {"", *(tidy(battery.power) for battery in stock.batteries)}
    lit = any(tidy(flash.power) in powers for flash in stock.flashes)
    return bool(stock.bodies) and (lit or any(0 < lens.aperture <= FAST for lens in stock.lenses))


def _charging(stock: Stock, need: Need) -> bool:
    powers = {tidy(body.power) for body in stock.bodies}
    return any(tidy(charger.power) in powers for charger in stock.chargers)


def _copies(stock: Stock, need: Need) -> bool:
    """A reader for the cards, and two drives that each hold the day."""
    forms = {tidy(card.card_form) for card in stock.all_cards}
    read = any(tidy(reader.card_form) in forms for reader in stock.readers)
    return read and sum(not d.gb or d.gb >= need.gb for d in stock.drives) >= DRIVES


def _space(stock: Stock, need: Need) -> bool:
    """Cards for every frame, with the reserve, in each slot that records, and never one alone."""
    return bool(stock.cards) and (not need.gb or hold_all(stock.cards, need))


def _power(stock: Stock, need: Need) -> bool:
    """Charges for every frame. A battery is worth its rating in the best body that takes it."""
    ratings = [(tidy(body.power), rating_of(body, need)) for body in stock.bodies]
    if not all(shots for _power, shots in ratings):
        return True  # nobody knows
    best: dict[str, int] = {}
    for power, shots in ratings:
        best[power] = max(best.get(power, 0), shots)
    good = sum(charges(b, best.get(tidy(b.power), 0), need.cold) for b in stock.batteries)
    return bool(best) and good >= need.frames


WORKING = frozenset({"body", "card", "battery"})  # what a body needs to work at all
LENS, LIGHT = WORKING | {"lens"}, WORKING | {"lens", "flash"}
CHARGE, COPY = WORKING | {"charger"}, frozenset({"card", "reader", "drive"})

JOBS = (
    Job("camera", N_("a working camera"), N_("a second body with card and battery"), WORKING,
        _camera),
    Job("wide", N_("a wide view"), N_("a lens of 35 mm or wider for your mount"), LENS, _wide),
    Job("longer", N_("a longer view"), N_("a lens of 70 mm or longer for your mount"), LENS,
        _longer),
    Job("dark", N_("light in a dark room"), N_("a flash, or a lens of f/2 or faster"), LIGHT,
        _dark),
    Job("space", N_("room on the cards"), N_("another card"), WORKING, _space),
    Job("power", N_("power for the day"), N_("another battery"), WORKING, _power),
    Job("charging", N_("a way to charge"), N_("a second charger"), CHARGE, _charging),
    Job("copies", N_("two copies that night"), N_("a second reader, or another drive"), COPY,
        _copies),
)  # fmt: skip
