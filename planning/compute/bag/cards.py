"""Which frames go on which card, so that no one card ever holds the whole day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ..planned import Block
from .items import Item, slots_of, tidy
from .need import RESERVE, Need
from .stock import Stock

Set = tuple[tuple[Item, ...], int]  # one card, or one for each slot, and the frames they take
KINDS_OF_PAIR = 6  # bodies whose two slots differ; a kit of more is no kit


@dataclass(frozen=True, slots=True)
class Filled:
    """One card, or one in each slot, and what is written on it. `gb` is with the reserve."""

    cards: tuple[Item, ...]
    blocks: tuple[Block, ...]
    gb: float


def fill_cards(stock: Stock, need: Need) -> tuple[Filled, ...]:
    """Cards in turn, form by form as given, the largest first; empty where they do not suffice.

    No card takes more than half of the day, so that losing one never loses it all. A block that
    is larger than what is left on a card goes on with the next one. Where both slots record, two
    cards of a set hold the same, and the smaller one says how much.
    """
    half = -(-need.frames // 2)
    sets = twice_sets(stock, need) if need.copies > 1 else once_sets(stock, need)
    rooms = [min(half, frames) for _cards, frames in sets]
    if not 0 < need.frames <= sum(rooms):
        return ()
    filled: list[tuple[list[Block], int]] = [([], 0) for _each in sets]
    at = 0
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
        Filled(cards, tuple(blocks), round(written * _raw(cards, stock, need) * RESERVE / 1000, 1))
        for (cards, _room), (blocks, written) in zip(sets, filled, strict=True)
        if written
    )


def hold_once(stock: Stock, need: Need) -> bool:
    """Whether the cards take every frame once, with the reserve."""
    return need.frames <= sum(frames for _cards, frames in once_sets(stock, need))


def hold_twice(stock: Stock, need: Need) -> bool:
    """Whether every frame can go on two cards in one body."""
    return need.frames <= sum(frames for _cards, frames in twice_sets(stock, need))


def frames_on(card_gb: float, raw_mb: float) -> int:
    """Frames that a card of that size takes, with the reserve; none if nobody knows their size."""
    return int(card_gb * 1000 / (raw_mb * RESERVE) + 1e-9) if raw_mb else 0


def once_sets(stock: Stock, need: Need) -> list[Set]:
    return [
        ((card,), frames_on(card.gb, _raw((card,), stock, need)))
        for same in _by_form(stock.cards).values()
        for card in same
    ]


def twice_sets(stock: Stock, need: Need) -> list[Set]:
    """Sets of two for bodies that record on both; the way of pairing that holds most.

    Each form goes with one other (or its own) all day, as it can be packed the night before.
    """
    kinds = dict.fromkeys(slots_of(body) for body in stock.bodies if body.slots > 1)
    forms = _by_form(stock.cards)
    alike = [each[0] for each in kinds if each[0] == each[1]]
    unlike = [each for each in kinds if each[0] != each[1]][:KINDS_OF_PAIR]
    best: list[Set] = []
    for crossed in _apart(unlike):
        used = {form for pair in crossed for form in pair}
        pairs = [pair for a, b in crossed for pair in zip(forms.get(a, ()), forms.get(b, ()))]  # noqa: B905 - the rest of the longer stays empty
        for form in alike:
            same = forms.get(form, []) if form not in used else []
            pairs += [(same[at], same[at + 1]) for at in range(0, len(same) - 1, 2)]
        sets = [(pair, _frames_of_pair(pair, stock, need)) for pair in pairs]
        best = max(best, sets, key=lambda each: sum(frames for _pair, frames in each))
    return best


def _frames_of_pair(pair: tuple[Item, ...], stock: Stock, need: Need) -> int:
    return frames_on(min(card.gb for card in pair), _raw(pair, stock, need))


def _apart(pairs: list[tuple[str, ...]]) -> Iterator[tuple[tuple[str, ...], ...]]:
    """Every choice of pairs that have no form in common, none included."""
    if not pairs:
        yield ()
        return
    first, *rest = pairs
    for chosen in _apart(rest):
        yield chosen
        if all(set(first).isdisjoint(other) for other in chosen):
            yield (first, *chosen)


def _raw(cards: tuple[Item, ...], stock: Stock, need: Need) -> float:
    """What a file takes on them; where no body that works says so, as it takes elsewhere."""
    return max(stock.raws.get(tidy(card.card_form), 0.0) for card in cards) or need.raw_mb


def _by_form(cards: Iterable[Item]) -> dict[str, list[Item]]:
    """The largest first, so like goes with like and the least of an odd number goes unused."""
    forms: dict[str, list[Item]] = {}
    for card in cards:
        forms.setdefault(tidy(card.card_form), []).append(card)
    return {form: sorted(same, key=lambda card: -card.gb) for form, same in forms.items()}
