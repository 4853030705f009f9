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

    `mount`, `card_form` and `power` are what fits what: the same words fit each other. `carried`
    names what it travels in; empty is the main bag. `taken` is whether it goes.
    """

    key: str
    kind: str
    title: str
    mount: str = ""
    card_form: str = ""
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


def fits(one: str, other: str) -> bool:
    return tidy(one) == tidy(other)


def nature(item: Item) -> tuple[object, ...]:
    """All that matters of it to any job: things of one nature stand in for each other."""
    fittings = (tidy(item.mount), tidy(item.card_form), tidy(item.power))
    sizes = (item.shots, item.wide, item.long, item.aperture, item.gb)
    return (item.kind, *fittings, *sizes, item.old)
