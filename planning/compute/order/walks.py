"""Lower bounds of what walking and keeping people apart will still cost."""

from __future__ import annotations

from collections.abc import Sequence

from planning.compute.order.instance import bits
from planning.compute.order.task import Task

# Rounds of raising potentials, fewer for long lists.
ROUNDS, PAIRS = 60, 60_000


class Walks:
    """Bound of the walks from the last photograph through the rest: the cheapest tree that joins
    them, with node potentials that pull it towards a path (Held and Karp 1970)."""

    def __init__(self, task: Task) -> None:
        self.task = task
        price = task.instance.price
        self.arcs = [[price * people for people in row] for row in task.instance.walk]
        self.potential = [0] * len(self.arcs)
        self.known: dict[tuple[int, int], int] = {}
        if price and len(self.arcs) > 2:
            self.climb()
        pull = self.potential
        self.pulled = [
            [arc + pull[f] + pull[g] for g, arc in enumerate(row)]
            for f, row in enumerate(self.arcs)
        ]

    def climb(self) -> None:
        """Raise the potential of nodes where the tree forks, lower it at its leaves."""
        n = len(self.arcs)
        pull = [0] * n
        nodes = list(range(n))
        best = self.path_bound(tree(self.arcs, nodes, pull)[0], pull)
        step = max(1, best // n)
        for turn in range(min(ROUNDS, PAIRS // n**2)):
            total, degree = tree(self.arcs, nodes, pull)
            found = self.path_bound(total, pull)
            if found > best:
                best, self.potential = found, pull[:]
            if turn % 10 == 9:
                step = max(1, step // 2)
            pull = [p + step * (d - 2) for p, d in zip(pull, degree, strict=True)]

    def path_bound(self, total: int, pull: Sequence[int]) -> int:
        return total - 2 * sum(pull) + sum(sorted(pull)[:2])

    def bound(self, taken: int, last: int) -> int:
        """What the jumps after `last` (-1 before the start) cost at least."""
        rest = self.task.instance.everything & ~taken
        if not rest:
            return 0
        key = (taken, last)
        if (found := self.known.get(key)) is None:
            found = self.tree_bound(rest, last) if self.task.instance.price else 0
            if self.task.apart:
                found += self.task.penalty * self.meetings(rest, last)
            self.known[key] = found
        return found

    def tree_bound(self, rest: int, last: int) -> int:
        """The tree over the rest and `last`; its potentials taken out again."""
        pull = self.potential
        nodes = list(bits(rest))
        total = -2 * sum(pull[g] for g in nodes)
        ends = sorted(pull[g] for g in nodes)
        if last < 0:
            total += sum(ends[:2]) if len(nodes) > 1 else 2 * ends[0]
        else:
            total += ends[0] - pull[last]
            nodes.append(last)
        return max(0, total + prim(self.pulled, nodes))

    def meetings(self, rest: int, last: int) -> int:
        """Pairs that have to meet: with too few photographs without either of them between."""
        nodes = rest | (1 << last if last >= 0 else 0)
        total = 0
        for one, other in self.task.apart:
            both = one & other & nodes
            alone = bool(one & nodes & ~other) + bool(other & nodes & ~one)
            between = (nodes & ~one & ~other).bit_count()
            total += max(0, both.bit_count() + alone - 1 - between)
        return total


def prim(arcs: Sequence[Sequence[int]], nodes: Sequence[int]) -> int:
    """Length of the cheapest tree that joins the nodes."""
    left = list(nodes)
    row = arcs[left.pop()]
    near = [row[g] for g in left]
    total = 0
    while left:
        least = min(near)
        i = near.index(least)
        total += least
        row = arcs[left.pop(i)]
        near.pop(i)
        near = [d if d < row[g] else row[g] for d, g in zip(near, left, strict=True)]
    return total


def tree(
    arcs: Sequence[Sequence[int]], nodes: Sequence[int], pull: Sequence[int]
) -> tuple[int, list[int]]:
    """The cheapest tree under potentials: its length and how many arcs meet at each node."""
    degree = [0] * len(arcs)
    left = list(nodes)
    new = left.pop()
    near = {g: (arcs[new][g] + pull[new] + pull[g], new) for g in left}
    total = 0
    while near:
        g = min(near, key=lambda g: (near[g][0], g))
        length, joined = near.pop(g)
        total += length
        degree[g] += 1
        degree[joined] += 1
        for h, (old, _) in near.items():
            if (arc := arcs[g][h] + pull[g] + pull[h]) < old:
                near[h] = (arc, g)
    return total, degree
