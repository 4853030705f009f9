"""The list as whole numbers and bit masks: bit g of a mask is photograph g."""

from __future__ import annotations

from collections.abc import Iterator
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
    `frames[g]`: who is in it, bit p for person p; `walk[f][g]`: people walking between the two;
    `price` a walk. Costs are whole numbers, `unit` of them to a guest-minute."""

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


def frames_of(problem: Problem) -> tuple[dict[str, int], tuple[int, ...]]:
    """Numbers of the people, and who is in each photograph as a mask of those numbers."""
    number: dict[str, int] = {}
    frames = []
    for photograph in problem.photographs:
        frame = 0
        for person in photograph.people:
            frame |= 1 << number.setdefault(person, len(number))
        frames.append(frame)
    return number, tuple(frames)


def exact(number: float) -> Fraction:
    return Fraction(millionths(number), MILLION)


def scale(numbers: list[Fraction]) -> int:
    return lcm(*(number.denominator for number in numbers))


def compile_problem(problem: Problem) -> Instance:
    number, frames = frames_of(problem)
    lengths = [exact(photograph.length) for photograph in problem.photographs]
    weights = {person: exact(problem.weights.get(person, 1)) for person in number}
    price = exact(problem.walk_price)
    of_weight = scale([*weights.values(), Fraction(1)])
    of_time = lcm(scale([*lengths, Fraction(1)]), (price * of_weight).denominator)
    masks = dict.fromkeys(number, 0)
    classes: Classes = {}
    for g, photograph in enumerate(problem.photographs):
        for person in photograph.people:
            masks[person] |= 1 << g
        if photograph.extra:
            classes[1 << g] = classes.get(1 << g, 0) + photograph.extra * of_weight
    for person, mask in masks.items():
        if weights[person]:
            classes[mask] = classes.get(mask, 0) + int(weights[person] * of_weight)
    extra = [photograph.extra for photograph in problem.photographs]
    walk = tuple(
        tuple((one ^ other).bit_count() + extra[f] + extra[g] for g, other in enumerate(frames))
        for f, one in enumerate(frames)
    )
    return Instance(
        tuple(int(length * of_time) for length in lengths),
        classes,
        frames,
        tuple(photograph.size for photograph in problem.photographs),
        walk,
        int(price * of_weight * of_time),
        of_weight * of_time,
        problem.presence == "called",
    )
