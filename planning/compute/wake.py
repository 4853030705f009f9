"""A fixed time that has to wait: what it costs to keep the next one, and what waits in its turn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from .network import CutPlan
from .network.changes import DROP, Change, changed, short_law
from .network.choices import options
from .network.course import Course, build_course
from .network.cuts import MOST_LATE, cuts_after, kept_after
from .network.simulate import Minutes, minute_for, share_until, simulate
from .network.values import Block, Cut

STEP = 5  # minutes


@dataclass(frozen=True, slots=True)
class Wake:
    """A fixed time waits until `at`, minutes since 00:00 of the day.

    `plan` is what then keeps the next time after it (None: there is none, or it is too late to
    say); where nothing does, it is what helps most, and `onward` that time as it has to wait in
    its turn (None: it is missed). Its chance is for all that follows, the block that waited
    included.
    """

    at: int
    plan: CutPlan | None = None
    onward: Wake | None = None


@dataclass(frozen=True)
class Waking:
    """A day whose times may have to wait; `starts` are the planned ones, in minutes since 00:00."""

    course: Course
    starts: Mapping[str, int]
    found: dict[tuple[str, int], Wake] = field(default_factory=dict)

    def wake_of(self, plan: CutPlan, most: CutPlan | None) -> Wake | None:
        """For a plan that reaches nothing: the time it is about moved, to the next five minutes,
        by what is later than the `most` that cuts reach. None where no later time helps."""
        fixed = self.course.chain[self.index(plan.keeps)].fixed
        if plan.reached or most is None or fixed is None or most.keeps != plan.keeps:
            return None
        if plan.otherwise == "miss" or plan.late - most.late > MOST_LATE:
            return None
        return self.moved(plan.keeps, to_step(fixed + plan.late - most.late))

    def moved(self, key: str, at: int) -> Wake:
        """The wake of a fixed block that begins at that minute."""
        if (key, at) not in self.found:
            self.found[key, at] = self._moved(key, at)
        return self.found[key, at]

    def _moved(self, key: str, at: int) -> Wake:
        first = self.index(key)
        last = kept_after(self.course, first)
        fixed = self.course.chain[first].fixed or 0
        if last is None or not first or at - fixed > MOST_LATE:
            return Wake(at)
        course = self.waiting(first)
        before = course.chain[first - 1].key
        (plan,) = cuts_after(course, {**self.starts, key: at}, before, (0,))
        plan = replace(plan, after=key)
        until = course.chain[last].fixed
        if plan.reached or plan.keeps != course.chain[last].key or until is None:
            return Wake(at, plan)
        if not plan.chance:  # no cut helps with that time; all of them do with a later one
            plan = replace(plan, cuts=every_cut(course.chain[first:last]))
        ready = self.ready(first, last, at, plan)
        later = max(to_step(minute_for(ready, self.course.problem.wanted)), until)
        kept = share_until(ready, later)
        return Wake(at, replace(plan, chance=kept), self.moved(plan.keeps, later))

    def waiting(self, first: int) -> Course:
        """The course with the time of a block let go, so that it can be cut as well."""
        own = self.course.chain[first]
        free = replace(own, fixed=None, window=None, droppable=False)
        chain = tuple(free if block is own else block for block in self.course.chain)
        return replace(self.course, chain=chain)

    def ready(self, first: int, last: int, at: int, plan: CutPlan) -> Minutes:
        """When people are there for block `last` on each simulated day, cut as planned."""
        chain = self.waiting(first).chain[first : last + 1]
        keys = {block.key for block in chain}
        blocks = tuple(replace(b, after=tuple(k for k in b.after if k in keys)) for b in chain)
        problem = replace(self.course.problem, blocks=blocks, home=None)
        course = build_course(changed(problem, changes(blocks, plan.cuts)))
        days = simulate(course, {**self.starts, chain[0].key: at})
        return days.ready[chain[-1].key]

    def index(self, key: str) -> int:
        return next(i for i, block in enumerate(self.course.chain) if block.key == key)


def every_cut(blocks: Iterable[Block]) -> tuple[Cut, ...]:
    found = (list(options(block, False))[-1] for block in blocks)
    return tuple(cut for cut in found if cut is not None)


def changes(blocks: tuple[Block, ...], cuts: tuple[Cut, ...]) -> Change:
    known = {block.key: block for block in blocks}
    return {
        cut.key: DROP if cut.minutes is None else {"law": short_law(known[cut.key])} for cut in cuts
    }


def to_step(minutes: int) -> int:
    """To the next five."""
    return minutes + -minutes % STEP
