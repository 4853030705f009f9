"""The second photographer: a chain of their own, with its own drives; nobody in two places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC
from itertools import combinations

from .chain import Link, in_order
from .draft import Change, Draft
from .planned import Block, Day
from .settled import BOTH, EITHER, SECOND
from .values import Brief, Leg

MOST_EITHER = 4  # above this, only all of them together are tried


def hers(given: frozenset[str] = frozenset()) -> Change:
    """The photographer's own links; those `given` away are the second photographer's."""

    def change(links: list[Link]) -> list[Link]:
        return [link for link in links if link.who != SECOND and link.key not in given]

    return change


def theirs(drafted: Draft, planned: Day, given: frozenset[str]) -> Change:
    """The second photographer's links; what both do is when the first plan has it."""
    blocks = {block.key: block for block in planned.blocks}

    def change(links: list[Link]) -> list[Link]:
        own = [
            _after_what_precedes(link, links, blocks)
            for link in links
            if link.who == SECOND or link.key in given
        ]
        return own + [
            replace(
                link,
                at=blocks[link.key].start.astimezone(UTC),
                said=True,
                minutes=blocks[link.key].minutes,
                template=replace(link.template, fills=False, leads="", movable=True),
            )
            for link in drafted.layout.links
            if link.who == BOTH and link.key in blocks
        ]

    return change


def _after_what_precedes(link: Link, links: list[Link], blocks: Mapping[str, Block]) -> Link:
    """A free block waits for the fixed time it follows, though somebody else is there."""
    ordered = in_order(links)
    before = [each for each in ordered[: ordered.index(link)] if each.at and each.key in blocks]
    if link.at or link.opens or not before:
        return link
    return replace(link, opens=blocks[before[-1].key].end.astimezone(UTC))


def without_home(brief: Brief) -> Brief:
    """Nobody knows where the second photographer's day begins: it begins where they are needed."""
    between = [leg for leg in brief.legs if leg.origin and leg.destination]
    begins = [Leg(None, place.key, 0) for place in brief.places]
    return replace(brief, legs=(*between, *begins))


def has_second(links: tuple[Link, ...] | list[Link]) -> bool:
    return any(link.who in {SECOND, BOTH} for link in links)


def ways_to_share(links: list[Link]) -> Iterator[frozenset[str]]:
    """Which blocks that either could do go to the second photographer: none, one, all."""
    either = [link.key for link in links if link.who == EITHER]
    yield frozenset()
    if either:
        for number in range(1, len(either) + 1):
            if number in {1, len(either)} or len(either) <= MOST_EITHER:
                yield from map(frozenset, combinations(either, number))
