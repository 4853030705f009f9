"""When drinks or a party are over for the guests, and when they are called, whoever photographs
what comes next.

A block that fills takes what time is left until the next one, and one that leads to another ends
when that begins. Where that one is somebody else's, nothing of their own photographer's holds them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from .chain import Link
from .planned import Block

# What guests can drink through, so that it ends no drinks. A party is over when she packs.
MEANWHILE = {"groups", "portraits", "details", "drinks", "golden", "other", "cake", "dance"}
AFTER_A_PARTY = {"pack", "night"}


def as_for_guests(
    link: Link, ordered: list[Link], own: set[str], blocks: Mapping[str, Block]
) -> Link:
    """A link of the photographer with the links `own`, held by what somebody else photographs.

    `ordered` is the whole day, `blocks` is what the other photographer does, as far as that is
    planned. Where nobody knows yet when drinks or a party end, they take their likely minutes.
    """
    i = next((i for i, each in enumerate(ordered) if each.key == link.key), None)
    if i is None:
        return link
    after = ordered[i + 1 :]
    if link.template.leads:
        return _called(link, after, own)
    if not link.template.fills or link.template.kind == "rest":
        return link
    i = next((i for i, each in enumerate(after) if _ends(link, each)), None)
    if i is None or after[i].key in own:
        return link
    at = _start(after[i:], blocks)
    if at is None:
        return replace(link, template=replace(link.template, fills=False))
    return replace(link, until=at)


def _called(link: Link, after: list[Link], own: set[str]) -> Link:
    """What leads to somebody else's fixed time is as fixed as that."""
    led = next(iter(after), None)
    if link.at or led is None or led.at is None or led.key in own:
        return link
    return replace(link, at=_call_before(link, led.at), said=True)


def _call_before(link: Link, at: datetime) -> datetime:
    return at - timedelta(minutes=link.minutes)


def _ends(link: Link, other: Link) -> bool:
    kind = other.template.kind
    return kind in AFTER_A_PARTY if link.template.kind == "party" else kind not in MEANWHILE


def _start(links: list[Link], blocks: Mapping[str, Block]) -> datetime | None:
    link, *after = links
    if link.key in blocks:
        return blocks[link.key].start.astimezone(UTC)
    if link.template.leads and after and after[0].at:
        return _call_before(link, after[0].at)
    return link.at
