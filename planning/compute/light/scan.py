"""Where a smooth curve crosses a level: samples, turning points between them, then a bracket."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import ceil
from typing import NamedTuple

Curve = Callable[[float], float]

STEP = 1800.0
FINE = 0.005
TRIES = 20


class Knot(NamedTuple):
    """A moment (seconds since 1970 UTC) and the curve's value there."""

    at: float
    value: float


class Crossing(NamedTuple):
    """A moment (seconds since 1970 UTC) at which the curve passes the level, and which way."""

    at: float
    rising: bool


def knots(curve: Curve, start: float, end: float, step: float = STEP) -> tuple[Knot, ...]:
    """Sample `curve` from one step before `start` to one after `end`, turning points included.

    Between neighbouring knots the curve only rises or only falls (as far as it turns no faster
    than `step` seconds), so a level is crossed exactly where the knots change sides.
    """
    count = max(1, ceil((end - start) / step))
    width = (end - start) / count or step
    moments = [start + width * i for i in range(-1, count + 2)]
    moments[count + 1] = end
    samples = [Knot(at, curve(at)) for at in moments]
    turns = [
        turning_point(curve, before, here, after)
        for before, here, after in zip(samples, samples[1:], samples[2:], strict=False)
        if (here.value - before.value) * (after.value - here.value) <= 0
    ]
    return tuple(sorted({*samples, *turns}))


def turning_point(curve: Curve, before: Knot, here: Knot, after: Knot) -> Knot:
    """Find the top (or bottom) near `here`, which stands above (or below) both others.

    Successive parabolas through three points, until the top moves by less than a second.
    """
    sign = 1.0 if here.value >= max(before.value, after.value) else -1.0
    for _ in range(TRIES):
        at = _vertex(before, here, after)
        if not before.at < at < after.at or abs(at - here.at) < 1.0:
            break
        new = Knot(at, curve(at))
        better = sign * new.value > sign * here.value
        early, late = sorted((here, new))
        if better == (new is early):
            before, here, after = before, early, late
        else:
            before, here, after = early, late, after
    return here


def _vertex(a: Knot, b: Knot, c: Knot) -> float:
    """Where the parabola through three knots turns; the middle one when it is straight."""
    left, right = (b.at - a.at) * (b.value - c.value), (b.at - c.at) * (b.value - a.value)
    bend = left - right
    if bend == 0:
        return b.at
    return b.at - ((b.at - a.at) * left - (b.at - c.at) * right) / (2 * bend)


def crossings(
    curve: Curve, points: Sequence[Knot], level: float, start: float, end: float
) -> tuple[Crossing, ...]:
    """Every moment in [start, end) at which `curve` passes `level`, in order, to 0.005 s."""
    found = []
    for before, after in pairwise(points):
        if (before.value >= level) == (after.value >= level):
            continue
        at = root(curve, before, after, level)
        if start <= at < end:
            found.append(Crossing(at, rising=after.value >= level))
    return tuple(found)


def root(curve: Curve, before: Knot, after: Knot, level: float) -> float:
    """The moment between two knots on either side of `level`: secant steps that keep a bracket.

    This is the Illinois variant of false position (Dowell & Jarratt 1971).
    """
    low, up = before.at, after.at
    at_low, at_up = before.value - level, after.value - level
    side = 0
    while up - low > FINE:
        middle = (low * at_up - up * at_low) / (at_up - at_low)
        if not low < middle < up:
            middle = (low + up) / 2
        value = curve(middle) - level
        if value == 0 or min(middle - low, up - middle) < FINE / 2:
            return middle
        if (value > 0) == (at_up > 0):
            up, at_up = middle, value
            at_low = at_low / 2 if side == 1 else at_low
            side = 1
        else:
            low, at_low = middle, value
            at_up = at_up / 2 if side == -1 else at_up
            side = -1
    return (low + up) / 2
