"""Which frames go on which card, so that no one card ever holds the whole day."""

from __future__ import annotations

from dataclasses import dataclass

from ..planned import Block
from .items import Item
from .need import RESERVE, Need


@dataclass(frozen=True, slots=True)
class Filled:
    """One card, or one in each slot, and what is written on it. `gb` is with the reserve."""

    cards: tuple[Item, ...]
    blocks: tuple[Block, ...]
    gb: float


def fill_cards(cards: list[Item], need: Need) -> tuple[Filled, ...]:
    """Cards in turn, form by form as given, the largest first; empty where they do not suffice.

    No card takes more than half of the day, so that losing one never loses it all. A block that
    is larger than what is left on a card goes on with the next one. Where both slots record, two
    cards of a set hold the same, and the smaller one says how much.
    """
    total = sum(frames for _block, frames in need.frames_by_block)
    gb = need.raw_mb * RESERVE / 1000  # of one frame
    if not total or not gb:
        return ()
    sets = _sets(cards, need.copies)
    half = -(-total // 2)
    rooms = [min(half, int(min(card.gb for card in each) / gb + 1e-9)) for each in sets]
    filled, at = [], 0
    for block, frames in need.frames_by_block:
        while frames and at < len(sets):
            if len(filled) <= at:
                filled.append(([], 0))
            blocks, written = filled[at]
            now = min(frames, rooms[at] - written)
            if now:
                filled[at] = ([*blocks, block], written + now)
                frames -= now
            if filled[at][1] >= rooms[at]:
                at += 1
        if frames:
            return ()
    return tuple(
        Filled(each, tuple(blocks), round(written * gb, 1))
        for each, (blocks, written) in zip(sets, filled, strict=False)
        if written
    )


def _sets(cards: list[Item], copies: int) -> list[tuple[Item, ...]]:
    """The largest first, and like with like, so that little of a pair goes unused."""
    forms = list(dict.fromkeys(card.card_form.casefold() for card in cards))
    ordered = sorted(cards, key=lambda card: (forms.index(card.card_form.casefold()), -card.gb))
    pairs = []
    while ordered:
        first = ordered.pop(0)
        same = [c for c in ordered if c.card_form.casefold() == first.card_form.casefold()]
        if len(same) < copies - 1:
            continue
        each = (first, *same[: copies - 1])
        for card in each[1:]:
            ordered.remove(card)
        pairs.append(each)
    return pairs
