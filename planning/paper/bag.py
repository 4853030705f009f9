"""The part Bag of the day pack: what goes, in what it travels, and what it amounts to."""

from __future__ import annotations

from collections import Counter
from typing import Any

from planning.bag_page import told
from planning.compute.bag.items import Item
from planning.compute.bag.sums import sums_of

from .subject import Reader, Subject


def bag(subject: Subject, reader: Reader) -> dict[str, Any]:
    found = subject.plan.bag
    if found is None:
        return {}
    sums = sums_of(found.items, found.need)
    return {"bags": _packed_in(found.items), "told": told(found), "bag": found, "sums": sums}


def has_bag(subject: Subject) -> bool:
    return bool(subject.plan.bag and subject.plan.bag.items)


def _packed_in(items: tuple[Item, ...]) -> list[tuple[str, list[tuple[str, int]]]]:
    """What travels together, as (title, how many) in the order of the kit."""
    where: dict[str, Counter[tuple[str, str]]] = {}
    for item in items:
        where.setdefault(item.carried, Counter())[item.key, item.title] += 1
    return [
        (name, [(title, count) for (_key, title), count in each.items()])
        for name, each in where.items()
    ]
