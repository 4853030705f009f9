"""What to borrow or hire where the studio has no cure: made-up things, as modest as do the job.

Each is proposed only; `cures.py` puts it into the bag and asks every job again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil
from typing import Any

from ..values import N_
from .cards import frames_on, once_sets
from .items import Item, slots_of, tidy
from .jobs import DRIVES, LONGER, WIDE, roomy, unchargeable, unreadable
from .need import RESERVE, Need, charges, rating_of
from .stock import Stock, stock_of

Things = tuple[Item, ...]
SIZES = (32.0, 64.0, 128.0, 256.0)  # GB of cards that can be bought
MOST = 16  # of one thing; more is no cure

# By kind; `that fits` stands where nobody knows the fitting.
WORDS = {
    "card": N_("%(count)s × card (%(form)s, %(gb)s GB or more)"),
    "battery": N_("%(count)s × charged battery (%(power)s)"),
    "reader": N_("%(count)s × reader (%(form)s)"),
    "charger": N_("%(count)s × charger (%(power)s)"),
    "drive": N_("%(count)s × drive with %(gb)s GB free"),
    "flash": N_("%(count)s × flash with its batteries"),
    "wide": N_("%(count)s × lens of 35 mm or wider (%(mount)s)"),
    "longer": N_("%(count)s × lens of 70 mm or longer (%(mount)s)"),
    "body": N_("%(count)s × body (mount %(mount)s, card %(form)s, battery %(power)s)"),
}
FITS = N_("one that fits")


def proposals(job: str, left: Things, need: Need) -> Iterator[Things]:
    """Things that may do the job beside what is left, the cheapest first."""
    stock = stock_of(left)
    known: dict[str, tuple[Things, ...]] = {
        "camera": tuple(_cameras(left, need)),
        "wide": _lenses(stock, "wide", WIDE),
        "longer": _lenses(stock, "longer", LONGER),
        "dark": ((Item("hire", "flash", ""),),),
        "space": tuple(_cards(stock, need)),
        "power": tuple(_batteries(stock, need)),
        "charging": (
            tuple(Item("hire", "charger", "", power=name) for name in unchargeable(stock)),
        ),
        "copies": (_copying(stock, need),),
        "twice": tuple(_pairs(stock, need)),
    }
    yield from (things for things in known[job] if 0 < len(things) <= MOST)


def _lenses(stock: Stock, key: str, focal: float) -> tuple[Things, ...]:
    mounts = {tidy(body.mount): body.mount for body in stock.bodies}
    return tuple(
        (Item(key, "lens", "", mount=mount, wide=focal, long=focal),) for mount in mounts.values()
    )


def _cameras(left: Things, need: Need) -> Iterator[Things]:
    """What a body at hand lacks, else a body for the things at hand, else all three."""
    forms = {tidy(item.card_form) for item in left if item.kind == "card"}
    powers = {tidy(item.power) for item in left if item.kind == "battery"}
    bodies = {(slots_of(i), tidy(i.power)): i for i in left if i.kind == "body"}
    for body in bodies.values():
        yield _beside(body, forms, powers, need)
    lamps = {tidy(item.power) for item in left if item.kind == "flash"}
    ours = [
        i for i in left if i.kind == "card" or (i.kind == "battery" and tidy(i.power) not in lamps)
    ]
    first = {kind: next((i for i in ours if i.kind == kind), None) for kind in ("card", "battery")}
    lens = next((item for item in left if item.kind == "lens"), None)
    body = Item(
        "hire",
        "body",
        "",
        mount=lens.mount if lens else "",
        card_form=first["card"].card_form if first["card"] else "",
        power=first["battery"].power if first["battery"] else "",
    )
    yield (body, *_beside(body, forms, powers, need))


def _beside(body: Item, forms: set[str], powers: set[str], need: Need) -> Things:
    found: Things = ()
    if forms.isdisjoint(slots_of(body)):
        raw = body.raw_mb or need.raw_mb
        gb = next((size for size in SIZES if frames_on(size, raw) >= need.frames), SIZES[0])
        found += (Item("hire", "card", "", card_form=body.card_form, gb=gb),)
    if tidy(body.power) not in powers:
        found += (Item("hire", "battery", "", power=body.power),)
    return found


def _cards(stock: Stock, need: Need) -> Iterator[Things]:
    """As few cards of one size as take the frames that are left over."""
    over = need.frames - sum(frames for _cards, frames in once_sets(stock, need))
    for form, name in _forms(stock).items():
        raw = stock.raws.get(form) or need.raw_mb
        if raw and over > 0:
            wanted = over * raw * RESERVE / 1000
            gb = next((size for size in SIZES if frames_on(size, raw) >= over), SIZES[-1])
            count = max(1, ceil(wanted / gb - 1e-9))
            yield (Item("hire", "card", "", card_form=name, gb=gb),) * count


def _pairs(stock: Stock, need: Need) -> Iterator[Things]:
    """Two cards, or more, for bodies that record on both."""
    for body in dict.fromkeys(body for body in stock.bodies if body.slots > 1):
        names = (body.card_form, body.second_form or body.card_form)
        for pairs in (1, 2, 4):
            for gb in SIZES:
                both = tuple(Item("hire", "card", "", card_form=name, gb=gb) for name in names)
                yield both * pairs


def _forms(stock: Stock) -> dict[str, str]:
    names: dict[str, str] = {}
    for body in stock.bodies:
        names.setdefault(slots_of(body)[0], body.card_form)
        names.setdefault(slots_of(body)[-1], body.second_form or body.card_form)
    return names


def _batteries(stock: Stock, need: Need) -> Iterator[Things]:
    best: dict[str, Item] = {}
    for body in stock.bodies:
        known = best.setdefault(tidy(body.power), body)
        best[tidy(body.power)] = max(known, body, key=lambda each: rating_of(each, need))
    good = sum(
        charges(b, rating_of(best[tidy(b.power)], need), need.cold)
        for b in stock.batteries
        if tidy(b.power) in best
    )
    for body in best.values():
        one = Item("hire", "battery", "", power=body.power)
        if each := charges(one, rating_of(body, need), need.cold):
            yield (one,) * max(1, ceil((need.frames - good) / each - 1e-9))


def _copying(stock: Stock, need: Need) -> Things:
    lacking = unreadable(stock)
    read = (Item("hire", "reader", "", card_form=", ".join(lacking)),) if lacking else ()
    drive = Item("hire", "drive", "", gb=max(1.0, float(ceil(need.gb))))
    return (*read, *(drive,) * max(0, DRIVES - len(roomy(stock, need))))


def modest(item: Item) -> Item:
    """A thing like a lost one, as it is to be borrowed: nothing of whose it was."""
    key = "wide" if item.kind == "lens" and item.wide <= WIDE else "longer"
    return replace(
        item, key=key if item.kind == "lens" else "hire", title="", carried="", old=False
    )


@dataclass(frozen=True, slots=True)
class Words:
    """A message id and what fills it, as a `Finding` has them."""

    message: str
    values: Mapping[str, Any]


def hire_words(cure: Any) -> Words:
    """What to ask for of a cure that is not of the kit: how many, and what has to fit."""
    item = cure.item
    fittings = {"form": item.card_form, "power": item.power, "mount": item.mount}
    values = {name: text or FITS for name, text in fittings.items()}
    key = item.key if item.kind == "lens" else item.kind
    return Words(WORDS[key], values | {"count": cure.count, "gb": f"{item.gb:g}"})
