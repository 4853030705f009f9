"""Rules as masks: what comes before what, and what is due by which position.

Rules are taken in the order given; one that clashes with those before it is set aside and told
as a fault with a smallest set of rules that cannot be kept together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from planning.compute.order import faults
from planning.compute.order.instance import bits
from planning.compute.order.values import Apart, Before, Fault, First, Free, Last, Problem, Rule

# Finding the smallest clash of each rule takes time; a list with more clashes is told in short.
EXPLAINED = 12


@dataclass(slots=True)
class Limits:
    """`before[g]`, `after[g]`: everything that must precede or follow g; `due[k]`: everything
    among the first k (what has to precede it included)."""

    before: list[int]
    after: list[int]
    due: dict[int, int] = field(default_factory=dict)

    @classmethod
    def none(cls, n: int) -> Limits:
        return cls([0] * n, [0] * n)

    def copy(self) -> Limits:
        return Limits(self.before[:], self.after[:], dict(self.due))

    def precede(self, one: int, other: int) -> bool:
        """Whether `one` can be put before `other`; if so it is."""
        if one == other or self.before[one] >> other & 1:
            return False
        if not self.before[other] >> one & 1:
            ups = self.before[one] | 1 << one
            downs = self.after[other] | 1 << other
            for g in bits(ups):
                self.after[g] |= downs
            for g in bits(downs):
                self.before[g] |= ups
        return True

    def lead(self, group: int) -> bool:
        everything = (1 << len(self.before)) - 1
        return not self.before[group] and all(
            self.precede(group, other) for other in bits(everything & ~(1 << group))
        )

    def close(self, group: int) -> bool:
        everything = (1 << len(self.before)) - 1
        return not self.after[group] and all(
            self.precede(other, group) for other in bits(everything & ~(1 << group))
        )

    def needed(self, groups: int) -> int:
        """The photographs and all that has to precede them."""
        whole = groups
        for g in bits(groups):
            whole |= self.before[g]
        return whole

    def fits(self) -> bool:
        """Whether everything due by k, with what precedes it, fits in k positions, for each k."""
        together = 0
        for k in sorted(self.due):
            together |= self.needed(self.due[k])
            if together.bit_count() > k:
                return False
        return True

    def finish(self) -> None:
        """Make the due sets whole; a full one precedes all the rest."""
        together, whole = 0, {}
        for k in sorted(self.due):
            together |= self.needed(self.due[k])
            whole[k] = together
        self.due = whole
        everything = (1 << len(self.before)) - 1
        for k, mask in whole.items():
            if mask.bit_count() == k:
                for g in bits(everything & ~mask):
                    self.before[g] |= mask
                for g in bits(mask):
                    self.after[g] |= everything & ~mask


@dataclass(frozen=True, slots=True)
class Reading:
    """Rules against one list: numbers of the photographs, and each person's as a mask."""

    number: dict[str, int]
    masks: dict[str, int]

    def add(self, limits: Limits, rule: Rule) -> bool:
        """Whether the rule can be kept with those in `limits`; if so it is in them."""
        match rule:
            case Before(one, other):
                kept = limits.precede(self.number[one], self.number[other])
            case First(group):
                kept = limits.lead(self.number[group])
            case Last(group):
                kept = limits.close(self.number[group])
            case Free(person, position):
                limits.due[position] = limits.due.get(position, 0) | self.masks[person]
                kept = True
            case _:
                return True
        return kept and limits.fits()

    def clash(self, kept: Sequence[Rule], new: Rule) -> tuple[Rule, ...]:
        """A smallest set among `kept` that cannot be kept with `new`, and `new`, as given."""
        core = [new]
        while True:
            limits = Limits.none(len(self.number))
            if not all(self.add(limits, rule) for rule in core):
                return (*(rule for rule in kept if rule in core), new)
            core.append(next(rule for rule in kept if not self.add(limits, rule)))


def read(problem: Problem) -> Reading:
    number = {key: g for g, key in enumerate(problem.keys)}
    masks: dict[str, int] = {}
    for g, photograph in enumerate(problem.photographs):
        for person in photograph.people:
            masks[person] = masks.get(person, 0) | 1 << g
    return Reading(number, masks)


def keep(problem: Problem) -> tuple[Limits, list[Fault]]:
    """The rules that can be kept together, and a fault for each that cannot."""
    reading = read(problem)
    limits = Limits.none(len(problem.photographs))
    kept: list[Rule] = []
    found: list[Fault] = []
    for rule in problem.rules:
        trial = limits.copy()
        if reading.add(trial, rule):
            limits = trial
            kept.append(rule)
        elif len(found) < EXPLAINED:
            found.append(faults.clash(problem, reading.clash(kept, rule)))
        else:
            found.append(faults.set_aside(problem, rule))
    if problem.largest_first and (pairs := largest_first(problem, limits)):
        found.append(faults.not_largest_first(problem, pairs))
    limits.finish()
    return limits, found + faults.same_frame(problem)


def largest_first(problem: Problem, limits: Limits) -> list[tuple[str, str]]:
    """Put bigger groups before smaller ones wherever the other rules let it; pairs that clash."""
    sizes = [photograph.size for photograph in problem.photographs]
    ranks = {size: rank for rank, size in enumerate(sorted(set(sizes), reverse=True))}
    rank = [ranks[size] for size in sizes]
    pairs = [(f, g) for f in range(len(sizes)) for g in range(len(sizes)) if rank[f] < rank[g]]
    pairs.sort(key=lambda pair: (rank[pair[1]] - rank[pair[0]], pair))
    left, keys = [], problem.keys
    for one, other in pairs:
        if limits.before[other] >> one & 1:
            continue
        trial = limits if not limits.due else limits.copy()
        if not (trial.precede(one, other) and trial.fits()):
            left.append((keys[one], keys[other]))
            continue
        limits.before, limits.after = trial.before, trial.after
    return left


def apart(problem: Problem) -> list[tuple[int, int]]:
    """For each pair to keep apart, the photographs of the one and of the other."""
    masks = read(problem).masks
    return [
        (masks[rule.one], masks[rule.other]) for rule in problem.rules if isinstance(rule, Apart)
    ]
