"""Repairs of a day that does not fit, each with what it would be worth, and roomier ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from .network import Answer, Problem, Repair, build_course, solve
from .network.changes import changed
from .network.simulate import minute_for, simulate
from .network.values import Promise
from .planned import Day, Shortfall
from .wake import to_step


@dataclass(frozen=True, slots=True)
class Mending:
    """A repair, and the fixed time that is then the least sure; None where other conflicts are
    left, or nothing is fixed."""

    repair: Repair
    weakest: Promise | None = None


def mendings(day: Day, gap: Shortfall) -> Iterator[Mending]:
    """Each repair, verified; times to ask for in steps of five minutes. One that moves a time by
    just the minutes short is followed by one that moves it far enough for what is wanted."""
    for exact in gap.repairs:
        if day.problem is None:
            yield Mending(exact)
            continue
        repair, answer = _on_the_clock(day.problem, exact)
        yield Mending(repair, _weakest(answer))
        roomy = _roomier(day.problem, repair, answer, gap)
        if roomy:
            yield roomy


def _on_the_clock(problem: Problem, repair: Repair) -> tuple[Repair, Answer]:
    """A time to ask for as people say it, to the next five minutes, where that mends it too."""
    key = _moved(repair)
    if key is not None:
        was, fixed = _fixed(problem, key), repair.change[key]["fixed"]
        round_ = replace(repair, change=_moved_to(repair, key, _stepped(fixed, was)))
        answer = solve(changed(problem, round_.change), with_advice=False)
        if not answer.conflicts:
            return round_, answer
    return repair, solve(changed(problem, repair.change), with_advice=False)


def _moved(repair: Repair) -> str | None:
    return next((key for key, fields in repair.change.items() if "fixed" in fields), None)


def _moved_to(repair: Repair, key: str, at: int) -> dict[str, dict[str, Any]]:
    return {**repair.change, key: {**repair.change[key], "fixed": at}}


def _stepped(at: int, was: int) -> int:
    """To the next five minutes, further away from where it was."""
    return to_step(at) if at > was else -to_step(-at)


def _fixed(problem: Problem, key: str) -> int:
    return next(block.fixed for block in problem.blocks if block.key == key) or 0


def _weakest(answer: Answer) -> Promise | None:
    return min(answer.promises, key=lambda kept: kept.chance, default=None)


def _roomier(problem: Problem, repair: Repair, answer: Answer, gap: Shortfall) -> Mending | None:
    key = _moved(repair)
    weakest = _weakest(answer)
    if key is None or weakest is None or gap.before is None or weakest.chance >= problem.wanted:
        return None
    was, fixed = _fixed(problem, key), repair.change[key]["fixed"]
    short = _short_by(changed(problem, repair.change), answer, gap.before.key)
    if short <= 0:
        return None
    at = fixed + short if fixed > was else fixed - short
    change = _moved_to(repair, key, _stepped(at, was))
    found = solve(changed(problem, change), with_advice=False)
    surer = _weakest(found)
    if surer is None or surer.chance <= weakest.chance:
        return None
    return Mending(replace(repair, change=change), surer)


def _short_by(problem: Problem, answer: Answer, key: str) -> int:
    """Minutes that people are late for a fixed time where it is kept on as many days as wanted."""
    starts = {one.key: one.start or 0 for one in answer.planned}
    leave = answer.leaving.at if answer.leaving else None
    days = simulate(build_course(problem), starts, leave)
    fixed = next(block.fixed for block in problem.blocks if block.key == key)
    return minute_for(days.ready[key], problem.wanted) - fixed if fixed is not None else 0
