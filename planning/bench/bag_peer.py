"""The jobs of a bag by brute force, written another way: whole combinations are tried.

`manage.py bench` holds what the bag says, and its speed, against this.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from planning.compute.bag.items import KINDS, Item
from planning.compute.bag.need import Need


def same(a: str, b: str) -> bool:
    return a.replace(" ", "").lower() == b.replace(" ", "").lower()


def named(one: str, several: str) -> bool:
    return any(same(one, each) for each in several.split(","))


def takes(body: Item, card: Item) -> bool:
    second = body.slots > 1 and bool(body.second_form) and same(body.second_form, card.card_form)
    return second or same(body.card_form, card.card_form)


def brute(bag: Sequence[Item], need: Need) -> set[str]:
    """The keys of the jobs that are done, by trying every camera that could be put together."""
    by = {kind: [item for item in bag if item.kind == kind] for kind in KINDS}
    cameras = [
        body
        for body, card, cell in product(by["body"], by["card"], by["battery"])
        if takes(body, card) and same(body.power, cell.power)
    ]
    cameras = [body for body in by["body"] if any(body is each for each in cameras)]
    views = [lens for c, lens in product(cameras, by["lens"]) if same(c.mount, lens.mount)]
    lit = [f for f in by["flash"] if f.power == ""]
    lit += [f for f, cell in product(by["flash"], by["battery"]) if same(f.power, cell.power)]
    fast = [lens for lens in views if lens.aperture and lens.aperture <= 2]
    roomy = [drive for drive in by["drive"] if drive.gb == 0 or drive.gb >= need.gb]
    written = [x for x in by["card"] if any(takes(c, x) for c in cameras)]
    chargers, readers = by["charger"], by["reader"]
    done = {
        "camera": cameras,
        "wide": any(lens.wide <= 35 for lens in views),
        "longer": any(lens.long >= 70 for lens in views),
        "dark": cameras and (lit or fast),
        "charging": cameras
        and all(any(named(c.power, x.power) for x in chargers) for c in cameras),
        "copies": written
        and len(roomy) >= 2
        and all(
            any(named(card.card_form, reader.card_form) for reader in readers) for card in written
        ),
        "power": cameras and enough_power(cameras, by["battery"], need),
        "space": enough_room(cameras, written, need),
    }
    return {key for key, is_done in done.items() if is_done}


def enough_power(cameras: list[Item], cells: list[Item], need: Need) -> bool:
    if not need.shots and any(c.shots == 0 for c in cameras):
        return True
    frames = 0.0
    for cell in cells:
        best = [need.shots or c.shots for c in cameras if same(c.power, cell.power)]
        frames += max([0, *best]) * (0.8 if cell.old else 1) * (0.8 if need.cold else 1)
    return frames >= need.frames


def enough_room(cameras: list[Item], cards: list[Item], need: Need) -> bool:
    """Every frame once, each card in the camera with the largest files that takes it."""
    if need.gb == 0:
        return bool(cards)
    frames = 0
    for card in cards:
        raw = max(c.raw_mb for c in cameras if takes(c, card)) or need.raw_mb
        frames += int(card.gb * 1000 / (raw * 1.3) + 1e-9)
    return bool(cards) and frames >= need.frames
