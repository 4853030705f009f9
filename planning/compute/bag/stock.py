"""What a set of things can do together, looked up once so that many sets can be asked quickly."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .items import KINDS, Item, tidy


@dataclass(frozen=True, slots=True)
class Stock:
    """`bodies` are those with a card and a battery that fit, `lenses` those that go on one of
    them, `cards` those that fit one, of the first body first; the rest is all there is."""

    bodies: tuple[Item, ...]
    lenses: tuple[Item, ...]
    cards: tuple[Item, ...]
    all_cards: tuple[Item, ...]
    batteries: tuple[Item, ...]
    flashes: tuple[Item, ...]
    chargers: tuple[Item, ...]
    readers: tuple[Item, ...]
    drives: tuple[Item, ...]


def stock_of(items: Iterable[Item]) -> Stock:
    by: dict[str, list[Item]] = {kind: [] for kind in KINDS}
    for item in items:
        by[item.kind].append(item)
    forms = {tidy(card.card_form) for card in by["card"]}
    powers = {tidy(battery.power) for battery in by["battery"]}
    bodies = [b for b in by["body"] if tidy(b.card_form) in forms and tidy(b.power) in powers]
    mounts = {tidy(body.mount) for body in bodies}
    turns = {form: at for at, form in enumerate(dict.fromkeys(tidy(b.card_form) for b in bodies))}
    cards = [card for card in by["card"] if tidy(card.card_form) in turns]
    return Stock(
        bodies=tuple(bodies),
        lenses=tuple(lens for lens in by["lens"] if tidy(lens.mount) in mounts),
        cards=tuple(sorted(cards, key=lambda card: turns[tidy(card.card_form)])),
        all_cards=tuple(by["card"]),
        batteries=tuple(by["battery"]),
        flashes=tuple(by["flash"]),
        chargers=tuple(by["charger"]),
        readers=tuple(by["reader"]),
        drives=tuple(by["drive"]),
    )
