"""Bounds of the called order: exact answers for parts of the list, whatever comes between.

Leaving photographs out saves at least the minutes of those in them, so what the weightiest
photographs cost by themselves in their best order, for every set of them already taken, bounds
the whole list from below; so does a part in which some photographs take no time but still hold
people back. Parts that count different photographs add up (pattern databases: Culberson and
Schaeffer 1998; additive ones: Felner, Korf and Hanan 2004).
"""

from __future__ import annotations

from planning.compute.order.budget import Budget
from planning.compute.order.instance import Classes, Instance, bits
from planning.compute.order.sums import Sums

Span = tuple[int, int, int]

# The least size of a table (it has two to the power of that many rows), how many of the weightiest
# photographs go into every one; a share of the work for all of them, and units of work a step.
SMALLEST, HOLD, SHARE, STEP = 4, 4, 0.45, 0.15
CROWD = 100  # so many different people double the work of a step
# Rows between two looks at the clock.
LOOK = 127


def weightiest_first(instance: Instance) -> list[int]:
    """Numbers of the photographs by minutes x weight of the people in it, most first."""
    pull = own_presence(instance)
    return sorted(range(instance.n), key=lambda g: (-pull[g], g))


def own_presence(instance: Instance) -> list[int]:
    """What those in each photograph cost while it is taken."""
    own = [0] * instance.n
    for mask, weight in instance.classes.items():
        for g in bits(mask):
            own[g] += weight * instance.minutes[g]
    return own


class Table:
    """The first `hold` photographs and those from `start` to `end`, which alone take time."""

    def __init__(self, instance: Instance, own: list[int], span: Span, budget: Budget) -> None:
        hold, start, end = span
        shown = [*range(hold), *range(start, end)]
        self.hold = (1 << hold) - 1
        self.shift = start - hold
        self.counted = (1 << end - start) - 1 << hold
        classes: Classes = {}
        for mask, weight in instance.classes.items():
            part = sum(1 << i for i, g in enumerate(shown) if mask >> g & 1)
            if part & (part - 1):
                classes[part] = classes.get(part, 0) + weight
        minutes = [0] * hold + list(instance.minutes[start:end])
        light = [0] * hold + own[start:end]
        self.left = fill(classes, minutes, light, budget)

    def to_go(self, taken: int) -> int:
        """The least presence in the counted photographs that are not yet taken."""
        return self.left[taken & self.hold | taken >> self.shift & self.counted]


def fill(
    classes: dict[int, int], minutes: list[int], light: list[int], budget: Budget
) -> list[int]:
    """Least presence still to come for every set already taken, from the full set down; zeros
    where time ran out first. `light[g]` is what those in photograph g cost there."""
    everything = (1 << len(minutes)) - 1
    frames = [sum(1 << p for p, m in enumerate(classes) if m >> g & 1) for g in range(len(minutes))]
    weights = Sums(list(classes.values()))
    seen = [0]
    for frame in frames:
        seen += [frame | people for people in seen]
    left = [0] * (everything + 1)
    photographs = [(1 << g, ~frames[g], minutes[g], light[g]) for g in range(len(minutes))]
    for taken in range(everything - 1, -1, -1):
        if not taken & LOOK and budget.over:
            return [0] * (everything + 1)
        here = seen[taken] & seen[everything ^ taken]
        left[taken] = min(
            [
                own + time * weights[here & others] + left[taken | bit]
                for bit, others, time, own in photographs
                if not taken & bit
            ]
        )
    return left


def tables(instance: Instance, size: int, budget: Budget) -> list[Table]:
    """Tables of up to `size` photographs, as large as a share of the work allows, that count
    every photograph once, unless time runs out; they come weightiest first."""
    size, crowd = min(instance.n, size), len(instance.classes)
    while size > SMALLEST and work(spans(instance.n, size), crowd) > SHARE * budget.units:
        size -= 1
    made, own = [], own_presence(instance)
    for span in spans(instance.n, size):
        made.append(Table(instance, own, span, budget))
        budget.spend(work([span], crowd))
        if budget.over:
            break
    return made


def spans(n: int, size: int) -> list[Span]:
    """What each table holds: (how many of the first, and from which to which more)."""
    found = []
    start = 0
    while start < n:
        hold = min(HOLD, start, size - 1)
        end = min(n, start + size - hold)
        found.append((hold, start, end))
        start = end
    return found


def work(spans: list[Span], crowd: int) -> float:
    """Units of work of these tables for a `crowd` of so many different people."""
    sizes = [hold + end - start for hold, start, end in spans]
    return sum(STEP * (1 + crowd / CROWD) * size * 2**size for size in sizes)
