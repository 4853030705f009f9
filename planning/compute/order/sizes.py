"""Largest first as a rule: it gives way where the other rules need it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from planning.compute.order.instance import bits
from planning.compute.order.values import Problem


class Masks(Protocol):
    """What must precede and follow each photograph, and what is due by which position."""

    before: list[int]
    after: list[int]
    due: dict[int, int]


def largest_first(problem: Problem, limits: Masks) -> list[tuple[str, str]]:
    """Put bigger groups before smaller ones; pairs of which the smaller may come first.

    One order that keeps the rules decides which pairs give way, so that all the others can be
    kept together.
    """
    sizes = [photograph.size for photograph in problem.photographs]
    order = in_time(pulled_up(sizes, limits), limits)
    keys, before = problem.keys, limits.before
    left, came = [], 0
    bigger = above(sizes)
    for i, g in enumerate(order):
        new = came & bigger[sizes[g]] & ~before[g]
        for f in reversed(order[:i]) if new else ():
            if new >> f & 1:
                before[g] |= before[f] | 1 << f
                new &= ~before[g]
        left += [(keys[f], keys[g]) for f in bits(bigger[sizes[g]] & ~came)]
        came |= 1 << g
    limits.after[:] = turned(before)
    return left


def above(sizes: Sequence[int]) -> dict[int, int]:
    """For each size the photographs of more people."""
    same = dict.fromkeys(sizes, 0)
    for g, size in enumerate(sizes):
        same[size] |= 1 << g
    found, mask = {}, 0
    for size in sorted(same, reverse=True):
        found[size] = mask
        mask |= same[size]
    return found


def pulled_up(sizes: Sequence[int], limits: Masks) -> list[int]:
    """Biggest first, each right after what has to precede it."""
    order: list[int] = []
    done = 0
    for g in sorted(range(len(sizes)), key=lambda g: -sizes[g]):
        ups = (limits.before[g] | 1 << g) & ~done
        order += sorted(bits(ups), key=lambda f: (limits.before[f].bit_count(), -sizes[f], f))
        done |= ups
    return order


def in_time(order: list[int], limits: Masks) -> list[int]:
    """The order with what is due by some position drawn forward as late as will do."""
    if not limits.due:
        return order
    rest = (1 << len(order)) - 1
    timely = []
    for count in range(1, len(order) + 1):
        choice = rest
        for k, mask in limits.due.items():
            if (still := mask & rest) and still.bit_count() > k - count:
                choice &= still
        g = next(g for g in order if choice >> g & 1 and not limits.before[g] & rest)
        timely.append(g)
        rest ^= 1 << g
    return timely


def turned(before: Sequence[int]) -> list[int]:
    """What follows each, from what precedes each: rows and columns exchanged."""
    rows = [f"{mask:0{len(before)}b}"[::-1] for mask in reversed(before)]
    return [int("".join(column), 2) for column in zip(*rows, strict=True)]
