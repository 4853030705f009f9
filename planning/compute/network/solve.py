"""A day from its statements: does it hold, why not, when is what, how sure, and what to cut."""

from __future__ import annotations

from planning.compute.network.course import Course, build_course
from planning.compute.network.cuts import cut_plans
from planning.compute.network.holds import holds
from planning.compute.network.leave import leave
from planning.compute.network.repairs import conflicts_with_repairs
from planning.compute.network.settle import place
from planning.compute.network.simulate import promises, simulate, windows
from planning.compute.network.slack import stretches
from planning.compute.network.statements import bounds, build_network
from planning.compute.network.tame import tame
from planning.compute.network.values import (
    Answer,
    Fault,
    Planned,
    Problem,
    Promise,
    Verdict,
)


def solve(problem: Problem, with_advice: bool = True) -> Answer:
    """Where the day does not hold: its conflicts with repairs, and no times; where a drive is
    missing: times, but nothing to promise. Without `with_advice`, only what a page needs while
    somebody types."""
    course = build_course(problem)
    network = build_network(course)
    faults = (*course.missing, *problem.oddities)
    if network.negative_cycle():
        return broken(course, faults)
    held = {key: (low, high) for key, low, high in bounds(network, course)}
    starts = place(course, network, held)
    planned = tuple(
        Planned(b.key, *held[b.key], starts[b.key], starts[b.key] + round(b.law.likely))
        for b in problem.blocks
    )
    leaving = leave(course, starts)
    if any(fault.breaks for fault in faults):
        return Answer("does not fit", planned, (), leaving=leaving, faults=faults)
    left = leaving.at if leaving else None
    days = simulate(course, starts, left)
    kept = promises(course, days)
    return Answer(
        verdict(problem, kept),
        planned,
        stretches(course),
        promises=kept,
        windows=windows(course, days),
        tame=tame(course, starts, left, kept) if with_advice else (),
        cuts=cut_plans(course, starts) if with_advice else (),
        leaving=leaving,
        faults=faults,
        holds=holds(course),
    )


def broken(course: Course, faults: tuple[Fault, ...]) -> Answer:
    conflicts = conflicts_with_repairs(course)
    hopeless = bool(build_network(course, least=True).negative_cycle())
    nothing = tuple(Planned(b.key, None, None, None, None) for b in course.problem.blocks)
    return Answer(
        "impossible" if hopeless else "does not fit",
        nothing,
        stretches(course),
        conflicts,
        faults=faults,
    )


def verdict(problem: Problem, kept: tuple[Promise, ...]) -> Verdict:
    return "risky" if any(one.chance < problem.wanted for one in kept) else "fits"
