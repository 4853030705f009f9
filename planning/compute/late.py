"""A day that runs late: for each block, what to cut when it ends so many minutes behind."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import chain

from .as_network import NIGHT_LONG, minute_of
from .day import golden_evening
from .groups import order_groups
from .light.hours import FIRST_YEAR, LAST_YEAR
from .network import CutPlan, Problem
from .network.course import Course, build_course
from .network.cuts import LATE, all_cuts, cuts_after
from .planned import Block, Day
from .sequence import choose_order
from .timeline import lay_out, shared
from .values import Brief
from .wake import STEP, Wake, Waking

LATES = (0, *LATE)  # whole minutes; in time, for a day that is risky as it is planned
HOLDS = {"fits", "risky"}


@dataclass(frozen=True, slots=True)
class Ending:
    """The end of a block after which something is to be kept; one plan for each lateness.

    `most` is the plan for the greatest lateness that cuts still reach, in steps of five minutes:
    whoever is later than that by some minutes and cuts as it says reaches a time that is moved
    by as many minutes, with at least its chance. `wakes` tell, by lateness, what that leaves
    behind it.
    """

    block: Block
    plans: tuple[CutPlan, ...]
    most: CutPlan | None = None
    wakes: Mapping[int, Wake] = field(default_factory=dict)


def running_days(brief: Brief, rain: bool = False) -> Iterator[Day]:
    """Each day's blocks and chances, without all that no late photographer needs."""
    turns = order_groups(brief, choose_order(brief))
    for day in brief.days:
        if not FIRST_YEAR <= day.date.year <= LAST_YEAR:
            yield Day(day)
            continue
        golden = golden_evening(brief, day)
        if rain:
            yield lay_out(brief, day, turns, golden).wet or Day(day)
        else:
            yield shared(brief, day, turns, golden)


def endings(day: Day, lates: Collection[int] = LATES, posts: bool = False) -> tuple[Ending, ...]:
    """In the order of the day; nothing where the day does not hold, or nothing is to be kept.
    With `posts`, only the first of each stretch: those with a fixed time, and the day's first."""
    if day.problem is None or day.verdict not in HOLDS:
        return ()
    course, starts = _course(day.problem), _starts(day)
    tried, plans = _tried(lates), dict[str, list[CutPlan]]()
    keys = [b.key for i, b in enumerate(course.chain) if not i or b.fixed is not None]
    told = [cuts_after(course, starts, key, tried) for key in keys] if posts else ()
    for plan in chain(*told) if posts else all_cuts(course, starts, tried):
        plans.setdefault(plan.after, []).append(plan)
    found, waking = [], Waking(course, starts)
    for block in day.blocks:
        if block.key in plans:
            ends = _ending_as_shown(day, course, starts, block)
            exact = plans[block.key]
            if ends is not starts:  # drinks that give way end later than their own minutes
                exact = list(cuts_after(course, ends, block.key, tried))
            found.append(_ending(block, exact, lates, waking))
    return tuple(found)


def why_none(day: Day) -> str:
    """Why a day has no endings: it is "short" of time, a way is not timed ("drives"), nothing has
    a fixed time ("loose"), or it is "empty"."""
    if not day.blocks:
        return "empty"
    return {"unknown": "drives", "fits": "loose", "risky": "loose", "": "loose"}.get(
        day.verdict, "short"
    )


def ending_after(day: Day, key: str, late: int) -> Ending | None:
    """For one block that ends `late` whole minutes behind (0 to 240; ValueError beyond)."""
    block = day.block(key)
    if block is None or day.problem is None or day.verdict not in HOLDS:
        return None
    course, starts = _course(day.problem), _starts(day)
    ends = _ending_as_shown(day, course, starts, block)
    plans = cuts_after(course, ends, key, _tried((late,)))
    return _ending(block, plans, (late,), Waking(course, starts)) if plans else None


def _tried(lates: Collection[int]) -> list[int]:
    return sorted({*lates, *range(0, max(lates) + 1, STEP)})


def _ending(
    block: Block, plans: Collection[CutPlan], lates: Collection[int], waking: Waking
) -> Ending:
    reached = [plan for plan in plans if plan.reached]
    most = reached[-1] if reached else None
    told = tuple(plan for plan in plans if plan.late in lates)
    wakes = {plan.late: wake for plan in told if (wake := waking.wake_of(plan, most))}
    return Ending(block, told, most, wakes)


def _course(problem: Problem) -> Course:
    """Without the windows that only open: nobody is late for the end of the night. What somebody
    else does with the couple stands in her way as if it were hers: no cut is told too well."""
    blocks = (
        replace(b, window=None) if b.window and b.window[1] >= NIGHT_LONG else b
        for b in problem.blocks
    )
    chain = tuple(
        b if b.photographer else replace(b, photographer=True, place=None) for b in blocks
    )
    return build_course(replace(problem, blocks=chain))


def _starts(day: Day) -> dict[str, int]:
    planned = day.answer.planned if day.answer else ()
    return {one.key: one.start for one in planned if one.start is not None}


def _ending_as_shown(
    day: Day, course: Course, starts: Mapping[str, int], block: Block
) -> Mapping[str, int]:
    """The starts, that of the block such that its likely minutes end when the page says."""
    likely = next((b.law.likely for b in course.chain if b.key == block.key), None)
    if likely is None or day.problem is None:
        return starts
    begins = minute_of(day.problem.hours, block.end) - round(likely)
    return starts if begins == starts[block.key] else {**starts, block.key: begins}
