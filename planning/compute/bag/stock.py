"""What a set of things can do together, looked up once so that many sets can be asked quickly."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from .items import KINDS, Item, slots_of, tidy


@dataclass(frozen=True, slots=True)
class Stock:
    """`bodies` are those with a card and a battery that fit, `lenses` those that go on one of
    them, `cards` those that fit one, of the first body first; the rest is all there is. `raws`
    says for each form of those cards what a raw file takes, in the body with the largest."""

    bodies: tuple[Item, ...]
    lenses: tuple[Item, ...]
    cards: tuple[Item, ...]
    batteries: tuple[Item, ...]
    flashes: tuple[Item, ...]
    chargers: tuple[Item, ...]
    readers: tuple[Item, ...]
    drives: tuple[Item, ...]
    raws: Mapping[str, float] = field(default_factory=dict)


def stock_of(items: Iterable[Item]) -> Stock:
    by: dict[str, list[Item]] = {kind: [] for kind in KINDS}
    for item in items:
        by[item.kind].append(item)
    forms = {tidy(card.card_form) for card in by["card"]}
    powers = {tidy(battery.power) for battery in by["battery"]}
    bodies = [b for b in by["body"] if works(b, forms, powers)]
    mounts = {tidy(body.mount) for body in bodies}
    raws: dict[str, float] = {}
    for body in bodies:
        for form in slots_of(body):
            raws[form] = max(raws.get(form, 0.0), body.raw_mb)
    turns = {form: at for at, form in enumerate(raws)}
    cards = [card for card in by["card"] if tidy(card.card_form) in turns]
    return Stock(
        bodies=tuple(bodies),
        lenses=tuple(lens for lens in by["lens"] if tidy(lens.mount) in mounts),
        cards=tuple(sorted(cards, key=lambda card: turns[tidy(card.card_form)])),
        batteries=tuple(by["battery"]),
        flashes=tuple(by["flash"]),
        chargers=tuple(by["charger"]),
        readers=tuple(by["reader"]),
        drives=tuple(by["drive"]),
        raws=raws,
    )


def works(body: Item, forms: set[str], powers: set[str]) -> bool:
    """One card in one of its slots is enough to go on."""
    return tidy(body.power) in powers and not forms.isdisjoint(slots_of(body))
