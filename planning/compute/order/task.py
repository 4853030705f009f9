"""One list with its rules, ready for a search: whole numbers, masks, and what an order costs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planning.compute.order.instance import Instance, bits
from planning.compute.order.rules import Limits

LANE = 32  # bits: enough for more pairs than anybody could name


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
        now, total = 0, 0
        times = []
        for g in order:
            times.append((1 << g, now, now := now + instance.minutes[g]))
        back = times[::-1]
        for mask, weight in instance.classes.items():
            left = next(end for bit, _, end in back if mask & bit)
            came = next(start for bit, start, _ in times if mask & bit) if instance.called else 0
            total += weight * (left - came)
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
            for row, met in zip(jump, meetings(instance.n, apart), strict=True)
        )
    return Task(instance, limits, tuple(apart), penalty, jump)


def meetings(n: int, apart: Sequence[tuple[int, int]]) -> list[memoryview]:
    """For each two photographs, how many pairs meet if one comes right after the other: all of a
    row added at once, in a whole number with 32 bits for each photograph."""
    wide = {mask: lanes(mask) for mask in {mask for pair in apart for mask in pair}}
    met: dict[int, int] = {}
    for one, other in apart:
        both = one & other
        for mask, times in ((one, wide[other]), (other, wide[one]), (both, -lanes(both))):
            met[mask] = met.get(mask, 0) + times
    rows = [0] * n
    for mask, times in met.items():
        for f in bits(mask):
            rows[f] += times
    return [memoryview(row.to_bytes(n * LANE // 8, "little")).cast("I") for row in rows]


def lanes(mask: int) -> int:
    """A mask with each bit at the foot of its own lane."""
    digits = LANE // 4
    text = f"{mask:b}".replace("0", "0" * digits).replace("1", "0" * (digits - 1) + "1")
    return int(text, 16)
