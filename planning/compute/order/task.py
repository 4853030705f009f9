"""One list with its rules, ready for a search: whole numbers, masks, and what an order costs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planning.compute.order.instance import Instance, bits
from planning.compute.order.rules import Limits


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
        return sum(meet(pair, f, g) for f, g in pairwise(order) for pair in self.apart)

    def allowed(self, taken: int) -> Iterator[int]:
        """What may come next, lowest number first."""
        limits = self.limits
        rest = self.instance.everything & ~taken
        count = taken.bit_count() + 1
        choice = rest
        for k, mask in limits.due.items():
            if (still := mask & rest) and still.bit_count() > k - count:
                choice &= still
        for g in bits(choice):
            if not limits.before[g] & rest:
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
        left = list(wish)
        taken, order = 0, []
        while left:
            may = set(self.allowed(taken))
            g = next(g for g in left if g in may)
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


def meet(pair: tuple[int, int], f: int, g: int) -> bool:
    """Whether the one is in f and the other in g, or the other way about."""
    one, other = pair
    return bool((one >> f & other >> g | other >> f & one >> g) & 1)


def as_task(instance: Instance, limits: Limits, apart: Sequence[tuple[int, int]]) -> Task:
    everybody = sum(instance.classes.values())
    far = max((max(row) for row in instance.walk), default=0)
    penalty = sum(instance.minutes) * everybody + instance.price * far * instance.n + 1
    jump = [[instance.price * people for people in row] for row in instance.walk]
    for f, row in enumerate(jump):
        for one, other in apart:
            meeting = (other if one >> f & 1 else 0) | (one if other >> f & 1 else 0)
            for g in bits(meeting):
                row[g] += penalty
    return Task(instance, limits, tuple(apart), penalty, tuple(tuple(row) for row in jump))
