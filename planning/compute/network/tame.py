"""Which block to tame first: what it would be worth if it took exactly its likely minutes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planning.compute.network.course import Course
from planning.compute.network.laws import Law
from planning.compute.network.simulate import promises, simulate
from planning.compute.network.values import Promise, Tamed

MOST = 3


def tame(
    course: Course, starts: Mapping[str, int], leave: int | None, kept: tuple[Promise, ...]
) -> tuple[Tamed, ...]:
    """For the fixed time least sure to be kept, the blocks whose certainty would help it most."""
    weakest = min(kept, key=lambda promise: promise.chance, default=None)
    if weakest is None:
        return ()
    known = simulate(course, starts, leave)
    found = []
    for block in course.blocks:
        if block.key == weakest.key:
            break
        if block.law.least < block.law.most:
            with_it = tamed(course, block.key)
            days = simulate(with_it, starts, leave, known=known, changed={block.key})
            chances = {one.key: one.chance for one in promises(course, days)}
            gain = round(chances[weakest.key] - weakest.chance, 6)
            if gain > 0:
                found.append(Tamed(block.key, weakest.key, gain))
    return tuple(sorted(found, key=lambda one: -one.gain)[:MOST])


def tamed(course: Course, key: str) -> Course:
    def sure(law: Law) -> Law:
        return Law(law.likely, law.likely, law.likely)

    blocks = tuple(replace(b, law=sure(b.law)) if b.key == key else b for b in course.blocks)
    return replace(course, blocks=blocks)
