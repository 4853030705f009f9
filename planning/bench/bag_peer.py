"""The jobs of a bag by brute force, written another way: whole combinations are tried.

What the bag says is held against this in the tests, and its speed in `manage.py bench`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from planning.compute.bag.items import KINDS, Item
from planning.compute.bag.need import Need


def same(a: str, b: str) -> bool:
    return a.replace(" ", "").lower() == b.replace(" ", "").lower()


def brute(bag: Sequence[Item], need: Need) -> set[str]:
    """The keys of the jobs that are done, by trying every camera that could be put together."""
    by = {kind: [item for item in bag if item.kind == kind] for kind in KINDS}
    cameras = [
        body
        for body, card, cell in product(by["body"], by["card"], by["battery"])
        if same(body.card_form, card.card_form) and same(body.power, cell.power)
    ]
    cameras = [body for body in by["body"] if any(body is each for each in cameras)]
    views = [lens for c, lens in product(cameras, by["lens"]) if same(c.mount, lens.mount)]
    lit = [f for f in by["flash"] if f.power == ""]
    lit += [f for f, cell in product(by["flash"], by["battery"]) if same(f.power, cell.power)]
    fast = [lens for lens in views if lens.aperture and lens.aperture <= 2]
    roomy = [drive for drive in by["drive"] if drive.gb == 0 or drive.gb >= need.gb]
    pairs = product(by["reader"], by["card"])
    done = {
        "camera": cameras,
        "wide": any(lens.wide <= 35 for lens in views),
        "longer": any(lens.long >= 70 for lens in views),
        "dark": cameras and (lit or fast),
        "charging": any(same(c.power, x.power) for c, x in product(cameras, by["charger"])),
        "copies": len(roomy) >= 2 and any(same(r.card_form, c.card_form) for r, c in pairs),
        "power": cameras and enough_power(cameras, by["battery"], need),
        "space": enough_room(cameras, by["card"], need),
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
    """Some way of putting the cards into slots takes every frame, no card over half of the day."""
    cards = [x for x in cards if any(same(x.card_form, c.card_form) for c in cameras)]
    if need.gb == 0:
        return bool(cards)
    total = sum(frames for _block, frames in need.frames_by_block)
    most = (total + 1) // 2
    taken = [min(most, int(x.gb * 1000 / (need.raw_mb * 1.3) + 1e-9)) for x in cards]
    forms = [x.card_form.replace(" ", "").lower() for x in cards]
    return 0 < total <= most_held(list(zip(forms, taken, strict=True)), need.copies)


def most_held(cards: list[tuple[str, int]], copies: int) -> int:
    """Over every way to pair them where two slots record the same; exponential in the cards."""
    if copies == 1:
        return sum(taken for _form, taken in cards)
    if not cards:
        return 0
    (form, taken), *rest = cards
    tried = [most_held(rest, copies)]  # this one stays in its pouch
    for at, (other, more) in enumerate(rest):
        if other == form:
            tried.append(min(taken, more) + most_held(rest[:at] + rest[at + 1 :], copies))
    return max(tried)
