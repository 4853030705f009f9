"""Everybody waits from the start: the exact order by taking the list apart (Sidney 1975).

Photographs are jobs with minutes, people are jobs of no time with weight that follow all their
photographs: 1|prec|sum w C. The photographs that free the most weight for each minute come
first in some best order, and so on with the rest; what cannot be taken apart is a block, solved
by trying who is free first and taking the rest apart again.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planning.compute.order.budget import Budget
from planning.compute.order.flow import Flow
from planning.compute.order.instance import Classes, bits

Key = frozenset[tuple[int, int]]


class Found(NamedTuple):
    """No order costs less than `low`; `order` costs `value`."""

    low: int
    value: int
    order: tuple[int, ...] | None


class Block(NamedTuple):
    """Photographs that stay together, with the people whom they free."""

    groups: int
    classes: Classes
    minutes: int
    weight: int
    low: int
    key: Key


def without(classes: Classes, groups: int) -> Classes:
    """What people still have before them once these photographs are taken."""
    rest: Classes = {}
    for mask, weight in classes.items():
        if left := mask & ~groups:
            rest[left] = rest.get(left, 0) + weight
    return rest


class OutOfTimeError(Exception):
    pass


class TimedFlow(Flow):
    """A flow that looks at the clock: for a long list one can take a tenth of a second."""

    def __init__(self, classes: Classes, minutes: Sequence[int], budget: Budget) -> None:
        self.budget = budget
        super().__init__(classes, minutes)

    def improve(self, start: int) -> bool:
        if self.budget.over:
            raise OutOfTimeError
        return super().improve(start)

    def reach(self, start: int) -> int:
        if self.budget.over:
            raise OutOfTimeError
        return super().reach(start)

    def smallest_in_time(self, union: int) -> int:
        """All of it when time is up: no part of it is denser."""
        try:
            return self.smallest()
        except OutOfTimeError:
            return union


class Gathered:
    """Solves 1|prec|sum w C for one list; remembers what it solved. `before[g]` is the mask of
    all photographs that must come before g; `sizes` settle what costs the same."""

    def __init__(
        self,
        minutes: Sequence[int],
        before: Sequence[int],
        budget: Budget,
        sizes: Sequence[int] | None = None,
    ) -> None:
        self.minutes = minutes
        self.by_size = sorted(range(len(minutes)), key=lambda g: (-sizes[g] if sizes else 0, g))
        self.before = before
        self.budget = budget
        self.known: dict[Key, Found] = {}
        self.lows: dict[Key, int] = {}
        self.parted: dict[Key, list[Block]] = {}

    def closed(self, classes: Classes) -> Classes:
        """A person is free only after everything that has to precede their photographs."""
        whole: Classes = {}
        for mask, weight in classes.items():
            more = mask
            for g in bits(mask):
                more |= self.before[g]
            whole[more] = whole.get(more, 0) + weight
        return whole

    def solve(self, groups: int, classes: Classes) -> Found:
        """The best order of all `groups`; `classes` must be closed."""
        found = self.chain(self.part(classes))
        rest = groups
        for g in found.order:
            rest &= ~(1 << g)
        return found._replace(order=found.order + self.listed(rest))

    def listed(self, groups: int) -> tuple[int, ...]:
        """Photographs whose order costs nothing: largest first, as far as rules let them."""
        order: list[int] = []
        while groups:
            g = next(g for g in self.by_size if groups >> g & 1 and not self.before[g] & groups)
            order.append(g)
            groups ^= 1 << g
        return tuple(order)

    def part(self, classes: Classes) -> list[Block]:
        """Sidney's decomposition, densest first, as far as it goes."""
        if not classes:
            return []
        key = frozenset(classes.items())
        if (blocks := self.parted.get(key)) is None:
            blocks = self.parted[key] = self.split(classes)
        return blocks

    def split(self, classes: Classes) -> list[Block]:
        union = 0
        for mask in classes:
            union |= mask
        if not union & (union - 1):
            return [self.as_block(union, classes)]
        if self.budget.over:
            return [self.as_block(union, classes)._replace(low=self.own(classes))]
        try:
            flow = TimedFlow(classes, self.minutes, self.budget)
        except OutOfTimeError:
            return [self.as_block(union, classes)._replace(low=self.own(classes))]
        first = flow.denser or flow.smallest_in_time(union)
        self.budget.spend(8 + 1.2 * flow.steps)
        if first == union:
            return [self.as_block(union, classes)]
        inner = {mask: weight for mask, weight in classes.items() if not mask & ~first}
        head = self.split(inner) if flow.denser else [self.as_block(first, inner)]
        return head + self.split(without(classes, first))

    def own(self, classes: Classes) -> int:
        """What everybody's own photographs take: a bound that needs no decomposition."""
        return sum(
            weight * sum(self.minutes[g] for g in bits(mask)) for mask, weight in classes.items()
        )

    def as_block(self, groups: int, classes: Classes) -> Block:
        """With its bound: no part of a block is denser than the whole, so people are freed no
        faster than evenly: w (d^2 + sum of squares) / 2 d."""
        times = [self.minutes[g] for g in bits(groups)]
        minutes, weight = sum(times), sum(classes.values())
        area = weight * (minutes * minutes + sum(time * time for time in times))
        low = -(-area // (2 * minutes))
        return Block(groups, classes, minutes, weight, low, frozenset(classes.items()))

    def bound(self, block: Block) -> int:
        return self.lows.get(block.key, block.low)

    def low(self, blocks: list[Block]) -> int:
        """A lower bound of a chain without any search."""
        total = later = 0
        for block in reversed(blocks):
            total += self.bound(block) + block.minutes * later
            later += block.weight
        return total

    def chain(self, blocks: list[Block], limit: int | None = None) -> Found:
        """Solve blocks one after another; no order once they cannot stay under `limit`."""
        low = self.low(blocks)
        value = 0
        later = sum(block.weight for block in blocks)
        order: tuple[int, ...] = ()
        for block in blocks:
            later -= block.weight
            if limit is not None and low >= limit:
                return Found(low, low, None)
            before = self.bound(block)
            found = self.block(block, None if limit is None else limit - low + before)
            low += found.low - before
            if found.order is None:
                return Found(low, low, None)
            value += found.value + block.minutes * later
            order += found.order
        return Found(low, value, order)

    def block(self, block: Block, limit: int | None = None) -> Found:
        if not block.groups & (block.groups - 1):
            return Found(block.low, block.low, (block.groups.bit_length() - 1,))
        if (found := self.known.get(block.key)) is None:
            low = self.bound(block)
            if limit is not None and low >= limit:
                return Found(low, low, None)
            found = self.branch(block, limit)
            self.lows[block.key] = found.low
            if found.order is not None and found.low == found.value:
                self.known[block.key] = found
        return found

    def branch(self, block: Block, limit: int | None) -> Found:
        """Each class of people that may be free first, then the rest taken apart again."""
        children = self.children(block)
        if children is None:
            return Found(self.bound(block), *self.plain(block))
        low, value, order = limit, limit, None
        for bound, head, cost, rest in children:
            if value is not None and (bound >= value or self.budget.over):
                low = bound if low is None else min(low, bound)
                break
            found = self.chain(rest, None if value is None else value - cost)
            low = found.low + cost if low is None else min(low, found.low + cost)
            if found.order is not None and (value is None or found.value + cost < value):
                value, order = found.value + cost, self.listed(head) + found.order
        low = max(self.bound(block), min(low, value))
        return Found(low, value, order)

    def children(self, block: Block) -> list[tuple[int, int, int, list[Block]]] | None:
        """What may come first and the rest, lowest bound first; None when time is up."""
        children = []
        for head in () if self.budget.over else self.heads(block):
            rest = self.part(without(block.classes, head))
            cost = sum(self.minutes[g] for g in bits(head)) * block.weight
            children.append((cost + self.low(rest), head, cost, rest))
            if self.budget.over:
                break
        if self.budget.over:
            return None
        return sorted(children, key=lambda child: child[:2])

    def heads(self, block: Block) -> list[int]:
        """What may come first: all photographs of a class that holds no smaller class.

        Nobody is freed before its last photograph, so their order among themselves is free.
        """
        heads: list[int] = []
        for mask in sorted(block.classes, key=int.bit_count):
            if all(head & ~mask for head in heads):
                heads.append(mask)
        self.budget.spend(len(block.classes))
        return heads

    def plain(self, block: Block) -> tuple[int, tuple[int, ...]]:
        """Out of time: the most weight for each minute next, without looking ahead."""
        pull = dict.fromkeys(bits(block.groups), 0)
        for mask, weight in block.classes.items():
            for g in bits(mask):
                pull[g] += weight
        wish = sorted(pull, key=lambda g: (-pull[g] / self.minutes[g], g))
        rest, order, ends, now = block.groups, [], {}, 0
        while rest:
            g = next(g for g in wish if rest >> g & 1 and not self.before[g] & rest)
            wish.remove(g)
            rest ^= 1 << g
            order.append(g)
            now += self.minutes[g]
            ends[g] = now
        back = order[::-1]
        value = sum(
            weight * next(ends[g] for g in back if mask >> g & 1)
            for mask, weight in block.classes.items()
        )
        return value, tuple(order)
