"""The list as whole numbers and bit masks: bit g of a mask is photograph g."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from planning.compute.order.evaluate import MILLION, millionths
from planning.compute.order.values import Problem

Classes = dict[int, int]


def bits(mask: int) -> Iterator[int]:
    """The places of the ones, lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


@dataclass(frozen=True, slots=True)
class Instance:
    """`minutes[g]`; `classes`: people with the same photographs as {mask: weight together};
    `frames[g]`: who is in it, bit p for person p; `walk[f][g]`: people walking between the two
    (none of both when walks have no price); `price` a walk. Costs are whole numbers, `unit` of
    them to a guest-minute."""

    minutes: tuple[int, ...]
    classes: Classes
    frames: tuple[int, ...]
    sizes: tuple[int, ...]
    walk: tuple[tuple[int, ...], ...]
    price: int
    unit: int
    called: bool

    @property
    def n(self) -> int:
        return len(self.minutes)

    @property
    def everything(self) -> int:
        return (1 << self.n) - 1


def frames_of(problem: Problem) -> tuple[int, ...]:
    """Who is in each photograph: a bit for each person."""
    bit: dict[str, int] = {}
    for photograph in problem.photographs:
        for person in photograph.people:
            if person not in bit:
                bit[person] = 1 << len(bit)
    return tuple(sum([bit[who] for who in photograph.people]) for photograph in problem.photographs)


def exact(number: float) -> Fraction:
    return Fraction(millionths(number), MILLION)


def scale(numbers: list[Fraction]) -> int:
    return lcm(*(number.denominator for number in numbers))


def walks_between(problem: Problem, frames: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    extra = [photograph.extra for photograph in problem.photographs]
    return tuple(
        tuple(
            [
                (one ^ other).bit_count() + own + more
                for other, more in zip(frames, extra, strict=True)
            ]
        )
        for one, own in zip(frames, extra, strict=True)
    )


def classes_of(problem: Problem, weights: dict[str, Fraction], unit: int) -> Classes:
    """People by their photographs, with `unit` for a weight of 1."""
    masks = dict.fromkeys(weights, 0)
    classes: Classes = {}
    for g, photograph in enumerate(problem.photographs):
        bit = 1 << g
        for person in photograph.people:
            masks[person] |= bit
        if photograph.extra:
            classes[bit] = classes.get(bit, 0) + photograph.extra * unit
    for person, mask in masks.items():
        if weight := weights[person]:
            classes[mask] = classes.get(mask, 0) + int(weight * unit)
    return classes


def compile_problem(problem: Problem) -> Instance:
    people = dict.fromkeys(p for photograph in problem.photographs for p in photograph.people)
    one = Fraction(1)
    weights = {p: exact(problem.weights[p]) if p in problem.weights else one for p in people}
    lengths = [exact(photograph.length) for photograph in problem.photographs]
    price = exact(problem.walk_price)
    of_weight = scale([*set(weights.values()), one])
    of_time = lcm(scale([*set(lengths), one]), (price * of_weight).denominator)
    frames = frames_of(problem) if price else ()
    walk = walks_between(problem, frames) if price else ((0,) * len(lengths),) * len(lengths)
    return Instance(
        tuple(int(length * of_time) for length in lengths),
        classes_of(problem, weights, of_weight),
        frames,
        tuple(photograph.size for photograph in problem.photographs),
        walk,
        int(price * of_weight * of_time),
        of_weight * of_time,
        problem.presence == "called",
    )
