"""The jobs of a day that must be done whatever fails, each as a question to a set of things.

Every job is monotone: more things never make it undone. That is what lets one thing be taken out
at a time, and one be put in as a cure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..values import N_
from .cards import fill_cards
from .items import Item, fits, of_kind
from .need import Need, charges

WIDE, LONGER, FAST = 35.0, 70.0, 2.0  # mm and f-number; common practice, no source
DRIVES = 2  # two copies that night, on two things

Things = tuple[Item, ...]


@dataclass(frozen=True)
class Job:
    """`title` says what is done, `hire` what to look for where the studio has no cure."""

    key: str
    title: str
    hire: str
    done: Callable[[Things, Need], bool]


def powered(items: Things) -> list[Item]:
    """Bodies with a card that fits and a battery that fits."""
    cards, batteries = of_kind(items, "card"), of_kind(items, "battery")
    return [
        body
        for body in of_kind(items, "body")
        if any(fits(card.card_form, body.card_form) for card in cards)
        and any(fits(battery.power, body.power) for battery in batteries)
    ]


def lenses(items: Things) -> list[Item]:
    """Lenses that go on a body which works."""
    bodies = powered(items)
    return [
        lens
        for lens in of_kind(items, "lens")
        if any(fits(lens.mount, body.mount) for body in bodies)
    ]


def cards_by_body(items: Things) -> list[Item]:
    """Cards that fit a body which works, those of the first body first."""
    left, found = of_kind(items, "card"), []
    for body in powered(items):
        found += [card for card in left if fits(card.card_form, body.card_form)]
        left = [card for card in left if not fits(card.card_form, body.card_form)]
    return found


def _camera(items: Things, need: Need) -> bool:
    return bool(powered(items))


def _wide(items: Things, need: Need) -> bool:
    return any(lens.wide <= WIDE for lens in lenses(items))


def _longer(items: Things, need: Need) -> bool:
    return any(lens.long >= LONGER for lens in lenses(items))


def _dark(items: Things, need: Need) -> bool:
    """A flash with its batteries, or a fast lens; a flash without a fitting has its own."""
    batteries = of_kind(items, "battery")
    lit = any(
        not flash.power or any(fits(flash.power, battery.power) for battery in batteries)
        for flash in of_kind(items, "flash")
    )
    fast = any(0 < lens.aperture <= FAST for lens in lenses(items))
    return bool(powered(items)) and (lit or fast)


def _charging(items: Things, need: Need) -> bool:
    chargers = of_kind(items, "charger")
    return any(fits(c.power, body.power) for c in chargers for body in powered(items))


def _copies(items: Things, need: Need) -> bool:
    """A reader for the cards, and two drives that each hold the day."""
    readers, cards = of_kind(items, "reader"), of_kind(items, "card")
    read = any(fits(reader.card_form, card.card_form) for reader in readers for card in cards)
    roomy = [drive for drive in of_kind(items, "drive") if not drive.gb or drive.gb >= need.gb]
    return read and len(roomy) >= DRIVES


def _space(items: Things, need: Need) -> bool:
    """Cards for every frame, with the reserve, in each slot that records, and never one alone."""
    cards = cards_by_body(items)
    return bool(cards) and (not need.gb or bool(fill_cards(cards, need)))


def _power(items: Things, need: Need) -> bool:
    """Charges for every frame. A battery is worth its rating in the best body that takes it."""
    good = 0.0
    for battery in of_kind(items, "battery"):
        ratings = [b.shots for b in powered(items) if fits(b.power, battery.power)]
        good += charges(battery, max(ratings, default=0), need.cold)
    unrated = any(not body.shots for body in powered(items))
    return bool(powered(items)) and (unrated or good >= need.frames)


JOBS = (
    Job("camera", N_("a working camera"), N_("a second body with card and battery"), _camera),
    Job("wide", N_("a wide view"), N_("a lens of 35 mm or wider for your mount"), _wide),
    Job("longer", N_("a longer view"), N_("a lens of 70 mm or longer for your mount"), _longer),
    Job("dark", N_("light in a dark room"), N_("a flash, or a lens of f/2 or faster"), _dark),
    Job("space", N_("room on the cards"), N_("another card"), _space),
    Job("power", N_("power for the day"), N_("another battery"), _power),
    Job("charging", N_("a way to charge"), N_("a second charger"), _charging),
    Job("copies", N_("two copies that night"), N_("a second reader, or another drive"), _copies),
)
