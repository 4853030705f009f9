"""Which frames go on which card, so that no one card ever holds the whole day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..planned import Block
from .items import Item, tidy
from .need import RESERVE, Need


@dataclass(frozen=True, slots=True)
class Filled:
    """One card, or one in each slot, and what is written on it. `gb` is with the reserve."""

    cards: tuple[Item, ...]
    blocks: tuple[Block, ...]
    gb: float


def fill_cards(cards: Iterable[Item], need: Need) -> tuple[Filled, ...]:
    """Cards in turn, form by form as given, the largest first; empty where they do not suffice.

    No card takes more than half of the day, so that losing one never loses it all. A block that
    is larger than what is left on a card goes on with the next one. Where both slots record, two
    cards of a set hold the same, and the smaller one says how much.
    """
    if not hold_all(cards, need):
        return ()
    sets, gb = _sets(cards, need.copies), _gb_of_one(need)
    filled: list[tuple[list[Block], int]] = [([], 0) for _each in sets]
    rooms, at = _rooms(sets, need), 0
    for block, frames in need.frames_by_block:
        while frames:
            blocks, written = filled[at]
            now = min(frames, rooms[at] - written)
            if now:
                filled[at] = ([*blocks, block], written + now)
                frames -= now
            if filled[at][1] >= rooms[at]:
                at += 1
    return tuple(
        Filled(each, tuple(blocks), round(written * gb, 1))
        for each, (blocks, written) in zip(sets, filled, strict=True)
        if written
    )


def hold_all(cards: Iterable[Item], need: Need) -> bool:
    """Whether they take every frame, none of them more than half of the day."""
    total = sum(frames for _block, frames in need.frames_by_block)
    return 0 < total <= sum(_rooms(_sets(cards, need.copies), need))


def _gb_of_one(need: Need) -> float:
    return need.raw_mb * RESERVE / 1000


def _rooms(sets: list[tuple[Item, ...]], need: Need) -> list[int]:
    """Frames that each set takes; none where nobody knows what a frame takes."""
    half = -(-sum(frames for _block, frames in need.frames_by_block) // 2)
    return [min(half, frames_on(each[-1].gb, need)) for each in sets]


def frames_on(card_gb: float, need: Need) -> int:
    """Frames that a card of that size takes, with the reserve."""
    gb = _gb_of_one(need)
    return int(card_gb / gb + 1e-9) if gb else 0


def _sets(cards: Iterable[Item], copies: int) -> list[tuple[Item, ...]]:
    """Form by form the largest first, and like with like: so the least of a pair goes unused."""
    forms: dict[str, list[Item]] = {}
    for card in cards:
        forms.setdefault(tidy(card.card_form), []).append(card)
    pairs = []
    for same in forms.values():
        ordered = sorted(same, key=lambda card: -card.gb)
        whole = len(ordered) - len(ordered) % copies
        pairs += [tuple(ordered[at : at + copies]) for at in range(0, whole, copies)]
    return pairs
