"""Everybody comes for their first photograph and leaves after their last."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planning.compute.order.budget import Budget
from planning.compute.order.few import Few
from planning.compute.order.instance import bits
from planning.compute.order.presence import Waiting
from planning.compute.order.tables import Table
from planning.compute.order.task import Task

# Up to FEW people at once by recursion; PART people are quick enough for a first look.
FEW, PART = 12, 4
ENDLESS = 1 << 200


class Calling(Waiting):
    """First to last: those already here are the gathered problem, the others cost their own;
    `tables` say it of parts of the list with those to come."""

    def __init__(self, task: Task, budget: Budget, tables: Sequence[Table] = ()) -> None:
        super().__init__(task, budget)
        self.tables = tables
        classes = task.instance.classes
        stay = {mask: weight for mask, weight in classes.items() if mask & (mask - 1)}
        closed = [next(iter(self.sidney.closed({mask: 1}))) for mask in stay]
        self.few = Few(closed, list(stay.values()), self.minutes, budget)
        self.own = {mask: weight * self.few.times[mask] for mask, weight in classes.items()}
        self.people = list(zip((bit for bit, _, _ in self.few.who), stay, strict=True))
        heavy = sorted(self.people, key=lambda person: -self.own[person[1]])
        bits_ = [bit for bit, _ in heavy]
        self.parts = [sum(bits_[i : i + PART]) for i in range(0, len(bits_), PART)]
        self.free_choice = not (task.jumps or task.limits.due or any(task.limits.before))
        self.frames = [
            sum(bit for bit, mask in self.people if mask >> g & 1) for g in range(task.instance.n)
        ]
        self.ends: tuple[int, int] | None = None

    def face(self, order: Sequence[int]) -> None:
        """Without rules and walks an order costs what its reverse costs: of each two, keep the
        one in which the first photograph of a good order comes before its last one."""
        if self.free_choice and len(order) > 1:
            self.ends = order[0], order[-1]

    def steps(self, taken: int) -> dict[int, int]:
        rest = self.task.instance.everything & ~taken
        here = 0
        coming = dict.fromkeys(bits(rest), 0)
        for mask, weight in self.task.instance.classes.items():
            if not mask & taken:
                for g in bits(mask):
                    coming[g] += weight
            elif mask & rest:
                here += weight
        return {g: self.minutes[g] * (here + new) for g, new in coming.items()}

    def rest(self, taken: int, limit: int | None = None) -> int:
        """The tables, then those already here among themselves, a few first, until one bound
        reaches `limit`."""
        if (low := self.known.get(taken)) is not None:
            return low
        self.budget.spend(3)
        low = sum([table.to_go(taken) for table in self.tables])
        if limit is not None and low >= limit:
            return low
        own = sum([cost for mask, cost in self.own.items() if not mask & taken])
        here, gone = self.here(taken), ~taken
        self.budget.spend(15 + len(self.own) / 4)
        top = ENDLESS if limit is None else limit - own
        some = 0
        for part in self.parts if limit is not None and len(self.parts) > 1 else ():
            if few := here & part:
                some += self.few.least(few, self.few.unions[few] & gone, top - some)
            if some >= top:
                return own + some
        if here.bit_count() <= FEW:
            some = self.few.least(here, self.few.unions[here] & gone, top) if here else 0
            if some >= top:
                return own + some
            low = max(low, own + some)
        else:
            low = max(low, own)
        self.known[taken] = low
        return low

    def here(self, taken: int) -> int:
        """People who came and still have something before them."""
        gone = ~taken
        return sum([bit for bit, mask in self.people if mask & taken and mask & gone])

    def choice(self, taken: int) -> Iterable[int]:
        """Without rules and walks some photographs need no trial as the next one.

        A photograph of just those who are here comes next at no cost; and one within another,
        which holds nobody else but people who are here, comes after it.
        """
        if not self.free_choice:
            return self.task.allowed(taken)
        here, frames = self.here(taken), self.frames
        rest = list(bits(self.task.instance.everything & ~taken))
        self.budget.spend(len(rest) ** 2 / 8)
        front, back = self.ends if self.ends and self.ends[0] in rest else (-1, -1)
        for g in rest:
            if frames[g] == here and g != back:
                return (g,)
        may = [g for g in rest if g != back]
        return [g for g in may if g == front or not self.later(frames[g], here, may)]

    def later(self, frame: int, here: int, rest: list[int]) -> bool:
        outside = ~(frame | here)
        for g in rest:
            other = self.frames[g]
            if other & frame == frame != other and not other & outside:
                return True
        return False
