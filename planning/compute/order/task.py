"""One list with its rules, ready for a search: whole numbers, masks, and what an order costs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planning.compute.order.instance import Instance, bits
from planning.compute.order.rules import Limits

LANE = 32  # bits: more pairs than anybody could name


@dataclass(frozen=True, slots=True)
class Task:
    """`jump[f][g]`: walking from f to g, and `penalty` for each pair of people to be kept apart
    who meet there. A penalty outweighs every cost, so the fewest meetings come first."""

    instance: Instance
    limits: Limits
    apart: tuple[tuple[int, int], ...]
    penalty: int
    jump: tuple[tuple[int, ...], ...]

    @property
    def jumps(self) -> bool:
        """Whether it matters what comes right after what."""
        return bool(self.instance.price or self.apart)

    def meetings(self, order: Sequence[int]) -> int:
        """How often people to be kept apart come right after each other."""
        return sum(self.jump[f][g] // self.penalty for f, g in pairwise(order))

    def timely(self, taken: int) -> int:
        """What may come next as far as deadlines go."""
        choice = rest = self.instance.everything & ~taken
        count = taken.bit_count() + 1
        for k, mask in self.limits.due.items():
            if (still := mask & rest) and still.bit_count() > k - count:
                choice &= still
        return choice

    def allowed(self, taken: int) -> Iterator[int]:
        """What may come next, lowest number first."""
        before, rest = self.limits.before, self.instance.everything & ~taken
        for g in bits(self.timely(taken)):
            if not before[g] & rest:
                yield g

    def keeps(self, order: Sequence[int]) -> bool:
        """Whether an order keeps all rules but those that keep people apart."""
        taken = 0
        limits = self.limits
        for g in order:
            if limits.before[g] & ~taken:
                return False
            taken |= 1 << g
            if limits.due and (mask := limits.due.get(taken.bit_count())) and mask & ~taken:
                return False
        return True

    def repaired(self, wish: Sequence[int]) -> tuple[int, ...]:
        """The order nearest a wish, from the front, that keeps the rules."""
        before, everything = self.limits.before, self.instance.everything
        left = list(wish)
        taken, order = 0, []
        while left:
            choice, rest = self.timely(taken), everything & ~taken
            g = next(g for g in left if choice >> g & 1 and not before[g] & rest)
            left.remove(g)
            order.append(g)
            taken |= 1 << g
        return tuple(order)

    def cost(self, order: Sequence[int]) -> int:
        """Weighted presence, walks at their price, and penalties."""
        instance = self.instance
        ends, now, total = {}, 0, 0
        for g in order:
            ends[g] = (now, now := now + instance.minutes[g])
        place = {g: i for i, g in enumerate(order)}
        for mask, weight in instance.classes.items():
            places = [place[g] for g in bits(mask)]
            came = ends[order[min(places)]][0] if instance.called else 0
            total += weight * (ends[order[max(places)]][1] - came)
        if self.jumps:
            total += sum(self.jump[f][g] for f, g in pairwise(order))
        return total


def as_task(instance: Instance, limits: Limits, apart: Sequence[tuple[int, int]]) -> Task:
    everybody = sum(instance.classes.values())
    far = max((max(row) for row in instance.walk), default=0)
    penalty = sum(instance.minutes) * everybody + instance.price * far * instance.n + 1
    jump = instance.walk
    if instance.price:
        jump = tuple(tuple([instance.price * people for people in row]) for row in jump)
    if apart:
        jump = tuple(
            tuple([cost + penalty * times for cost, times in zip(row, met, strict=True)])
            for row, met in zip(jump, meeting(instance.n, apart), strict=True)
        )
    return Task(instance, limits, tuple(apart), penalty, jump)


def meeting(n: int, apart: Sequence[tuple[int, int]]) -> Iterator[list[int]]:
    """For each photograph, how many pairs meet if another comes next: all of a row added at once,
    in a whole number with 32 bits for each photograph."""
    pairs = [(one, other, lanes(one), lanes(other), lanes(one | other)) for one, other in apart]
    for f in range(n):
        total = 0
        for one, other, at_one, at_other, at_both in pairs:
            if one >> f & 1:
                total += at_both if other >> f & 1 else at_other
            elif other >> f & 1:
                total += at_one
        yield [total >> (LANE * g) & (1 << LANE) - 1 for g in range(n)]


def lanes(mask: int) -> int:
    """A mask with each bit at the foot of its own lane."""
    digits = LANE // 4
    text = f"{mask:b}".replace("0", "0" * digits).replace("1", "0" * (digits - 1) + "1")
    return int(text, 16)
