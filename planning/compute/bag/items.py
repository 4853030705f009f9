"""One thing of the kit as a frozen value. Six like cards are six of these."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

# In the order of what they cost to double, cheapest first; cures are looked for in it.
KINDS = ("card", "battery", "reader", "charger", "thing", "drive", "flash", "lens", "body")


@dataclass(frozen=True, slots=True)
class Item:
    """`key` is the same for things that are alike. Focal lengths are in mm as on a full frame,
    `aperture` the f-number wide open, `raw_mb` MB of a raw file, `shots` what the maker rates one
    charge for (by the viewfinder), `gb` the size of a card or drive, `speed` MB/s guaranteed.

    `mount`, `card_form` and `power` are what fits what: the same words fit each other. A reader
    and a charger may name several, with commas between; `second_form` is that of a body's second
    slot where it takes another card. `carried` names what it travels in; empty is the main bag.
    `taken` is whether it goes.
    """

    key: str
    kind: str
    title: str
    mount: str = ""
    card_form: str = ""
    second_form: str = ""
    power: str = ""
    slots: int = 1
    raw_mb: float = 0.0
    shots: int = 0
    wide: float = 0.0
    long: float = 0.0
    aperture: float = 0.0
    gb: float = 0.0
    speed: float = 0.0
    old: bool = False
    carried: str = ""
    taken: bool = True


def of_kind(items: tuple[Item, ...], kind: str) -> list[Item]:
    return [item for item in items if item.kind == kind]


@lru_cache(maxsize=4096)
def tidy(name: str) -> str:
    """The name of a fitting as it is compared, however it is typed."""
    return "".join(name.casefold().split())


@lru_cache(maxsize=4096)
def several(names: str) -> tuple[str, ...]:
    """Each fitting of a reader or charger, as it is compared; an empty text is one empty name."""
    found = dict.fromkeys(tidy(name) for name in names.split(","))
    return tuple(name for name in found if name) or ("",)


def slots_of(body: Item) -> tuple[str, ...]:
    """The form of card of each slot that records, as it is compared."""
    first = tidy(body.card_form)
    return (first, tidy(body.second_form) or first) if body.slots > 1 else (first,)


def nature(item: Item) -> tuple[object, ...]:
    """All that matters of it to any job: things of one nature stand in for each other."""
    fittings = (tidy(item.mount), several(item.card_form), several(item.power))
    slots = (slots_of(item), item.raw_mb) if item.kind == "body" else ()
    sizes = (item.shots, item.wide, item.long, item.aperture, item.gb)
    return (item.kind, *fittings, *slots, *sizes, item.old)
