"""The same day with some of its blocks changed: shorter, moved or left out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from planning.compute.network.laws import Law
from planning.compute.network.values import Block, Problem

Change = Mapping[str, Mapping[str, Any]]
DROP = {"drop": True}


def changed(problem: Problem, change: Change) -> Problem:
    """With the fields of these blocks replaced; what waited for a block that is left out waits
    for what that block waited for."""
    blocks = problem.blocks
    for key, fields in change.items():
        if fields.get("drop"):
            blocks = without(blocks, key)
    return replace(problem, blocks=tuple(apply(block, change.get(block.key)) for block in blocks))


def apply(block: Block, fields: Mapping[str, Any] | None) -> Block:
    return replace(block, **fields) if fields else block


def without(blocks: tuple[Block, ...], key: str) -> tuple[Block, ...]:
    gone = next(block for block in blocks if block.key == key)
    return tuple(
        replace(block, after=inherited(block.after, key, gone.after))
        for block in blocks
        if block != gone
    )


def inherited(after: tuple[str, ...], key: str, instead: tuple[str, ...]) -> tuple[str, ...]:
    if key not in after:
        return after
    kept = [other for other in after if other != key]
    return tuple(dict.fromkeys([*kept, *instead]))


def short_law(block: Block) -> Law | None:
    """The law of the short form, where there is one."""
    if block.short is None or block.short >= block.law.likely:
        return None
    return block.law.shortened(block.short)
