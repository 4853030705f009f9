"""Rules as masks: what comes before what, and what is due by which position.

Rules are taken in the order given; one that clashes with those before it is set aside and told
as a fault with the rules it clashes with, as long as there is time to find them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from planning.compute.order.budget import Budget
from planning.compute.order.clashes import smallest
from planning.compute.order.faults import Words
from planning.compute.order.instance import bits
from planning.compute.order.sizes import largest_first
from planning.compute.order.values import Apart, Before, Fault, First, Free, Last, Problem, Rule

Pairs = list[tuple[int, int]]

# Finding what a rule clashes with takes time, and nobody reads many; the others are told in short.
EXPLAINED, EXPLAINING = 12, 0.1


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

    @property
    def all(self) -> int:
        return (1 << len(self.before)) - 1

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
        """Whether `group` can precede all others; if so it does."""
        if self.before[group]:
            return False
        own = 1 << group
        self.after[group] = self.all & ~own
        self.before = [mask | own for mask in self.before]
        self.before[group] = 0
        return True

    def close(self, group: int) -> bool:
        """Whether `group` can follow all others; if so it does."""
        if self.after[group]:
            return False
        own = 1 << group
        self.before[group] = self.all & ~own
        self.after = [mask | own for mask in self.after]
        self.after[group] = 0
        return True

    def whole(self) -> Iterator[tuple[int, int]]:
        """For each position with something due by it: all of that, with what precedes it."""
        together = 0
        for k in sorted(self.due):
            for g in bits(self.due[k] & ~together):
                together |= self.before[g] | 1 << g
            yield k, together

    def fits(self) -> bool:
        """Whether everything due by k, with what precedes it, fits in k positions, for each k."""
        if any(mask.bit_count() > k for k, mask in self.due.items()):
            return False
        return all(mask.bit_count() <= k for k, mask in self.whole())

    def finish(self) -> None:
        """Make the due sets whole; a full one precedes all the rest."""
        self.due = dict(self.whole())
        for k, mask in self.due.items():
            if mask.bit_count() == k:
                rest = self.all & ~mask
                for g in bits(rest):
                    self.before[g] |= mask
                for g in bits(mask):
                    self.after[g] |= rest


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

    def pair(self, rule: Apart) -> tuple[int, int]:
        """The photographs in which the two are to be kept apart, of the one and of the other."""
        crowds = sum(1 << self.number[key] for key in rule.crowds)
        return self.masks[rule.one] & ~crowds, self.masks[rule.other] & ~crowds


def read(problem: Problem) -> Reading:
    """With the masks of the people whom rules name."""
    number = {key: g for g, key in enumerate(problem.keys)}
    masks: dict[str, int] = dict.fromkeys(named(problem.rules), 0)
    people = set(masks)
    for g, photograph in enumerate(problem.photographs) if people else ():
        for person in people.intersection(photograph.people):
            masks[person] |= 1 << g
    return Reading(number, masks)


def named(rules: Iterable[Rule]) -> Iterator[str]:
    """The people of whom rules speak."""
    for rule in rules:
        match rule:
            case Free(person, _):
                yield person
            case Apart(one, other):
                yield from (one, other)


def keep(problem: Problem, budget: Budget) -> tuple[Limits, Pairs, list[Fault]]:
    """The rules that can be kept together; for each pair to keep apart, the photographs of the
    one and of the other; and a fault for each rule that cannot be kept."""
    reading, words = read(problem), Words(problem)
    limits = Limits.none(len(problem.photographs))
    share = budget.share(EXPLAINING, EXPLAINING)
    kept: list[Rule] = []
    found: list[Fault] = []
    for rule in problem.rules:
        # Only a deadline can still fail once limits have changed.
        trial = limits.copy() if limits.due or isinstance(rule, Free) else limits
        if reading.add(trial, rule):
            limits = trial
            kept.append(rule)
            continue
        clash = smallest(reading, kept, rule, share) if len(found) < EXPLAINED else None
        found.append(words.clash(clash, reading.masks) if clash else words.set_aside(rule))
    limits.finish()
    if problem.largest_first and (given_way := largest_first(problem, limits)):
        found.append(words.not_largest_first(given_way))
    limits.finish()
    pairs = [reading.pair(rule) for rule in problem.rules if isinstance(rule, Apart)]
    return limits, pairs, found + words.same_frame(problem.rules, reading.pair)
