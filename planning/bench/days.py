"""The timeline measured: one edit of a day, and CP-SAT on the placement beside it."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from random import Random
from statistics import median
from time import process_time
from typing import Any
from zoneinfo import ZoneInfo

from planning.bench.placement_peer import place_with_peer
from planning.compute.network import Block, Hours, Law, Problem, draws, solve
from planning.compute.network.course import build_course
from planning.compute.network.placement import best_starts, build_steps, total
from planning.compute.network.statements import bounds, build_network
from planning.compute.values import Leg

GOALS = {16: 0.015, 40: 0.040}
SLACK = (20, 45)
HOURS = Hours(date(2026, 6, 20), ZoneInfo("Europe/Madrid"))
PLACES = ("house", "church", "garden", "hall")


def invented_day(count: int, seed: int) -> Problem:
    """A day of that many blocks in four places, every eighth one fixed, with some slack before
    each of these and a window every tenth block."""
    rng = Random(seed * 1000 + count)  # noqa: S311 - invented, and the same every time
    blocks: list[Block] = []
    time, likely_end = 8 * 60, 0
    for i in range(count):
        place = PLACES[4 * i // count]
        moved = bool(blocks) and blocks[-1].place != place
        likely = rng.randint(2, 6) * (5 if count < 30 else 2)
        law = Law(likely * 7 // 10, likely, likely * 16 // 10)
        begins = max(time, likely_end) + (20 if moved else 0)
        fixed = begins + rng.randint(*SLACK) if i % 8 == 3 else None
        window = (begins - 30, begins + 150) if i % 10 == 6 else None
        begins = begins if fixed is None else fixed
        blocks.append(
            Block(
                f"b{i}",
                law,
                fixed=fixed,
                window=window,
                place=place,
                start_delay=Law(0, 3, 15) if fixed else None,
                short=likely // 2,
                importance=rng.randint(1, 10),
            )
        )
        likely_end = begins + likely
    legs = tuple(Leg(one, other, 15) for one, other in pairwise(PLACES))
    return Problem(HOURS, tuple(blocks), (*legs, Leg("home", PLACES[0], 30)), "home")


def works(days: int) -> list[tuple[int, list[Problem]]]:
    return [(count, [invented_day(count, seed) for seed in range(days)]) for count in GOALS]


def measured(count: int, problems: list[Problem], peer_seconds: float) -> dict[str, Any]:
    """In processor time, which other work on the machine leaves alone. An edit is the network,
    bounds, conflicts, placement and 2,000 days; the first one also draws these days."""
    for cache in (draws.scores, draws.shuffled, draws.shares, draws.minutes):
        cache.cache_clear()
    first = timed(problems[0])
    times = [timed(problem) for problem in problems for _ in range(3)]
    short = [broken(problem) for problem in problems]
    row: dict[str, Any] = {
        "work": title(count),
        "days": len(problems),
        "first": first,
        "median": median(times),
        "worst": max(times),
        "broken_median": median([timed(problem) for problem in short for _ in range(3)]),
        "goal": GOALS[count],
    }
    course = build_course(problems[0])
    held = {key: (low, high) for key, low, high in bounds(build_network(course), course)}
    started = process_time()
    steps = build_steps(course, held)
    starts = best_starts(steps)
    row["placement"] = process_time() - started
    row["value"] = total(steps, starts)
    if peer_seconds and (peer := place_with_peer(steps, peer_seconds, 1)):
        row["peer"] = {"seconds": peer.seconds, "proven": peer.proven, "value": peer.value}
    return row


def title(count: int) -> str:
    return f"timeline edit, {count} blocks"


def timed(problem: Problem) -> float:
    started = process_time()
    solve(problem, with_advice=False)
    return process_time() - started


def broken(problem: Problem) -> Problem:
    """The same day with its second fixed time an hour too early."""
    fixed = [i for i, block in enumerate(problem.blocks) if block.fixed is not None]
    blocks = list(problem.blocks)
    one = blocks[fixed[1]]
    changed = {name: getattr(one, name) for name in one.__dataclass_fields__}
    blocks[fixed[1]] = Block(**{**changed, "fixed": (one.fixed or 0) - 60})
    return Problem(problem.hours, tuple(blocks), problem.legs, problem.home)


def as_line(row: dict[str, Any]) -> str:
    line = (
        f"{row['work']:<34}{1000 * row['first']:9.1f}{1000 * row['median']:9.1f}"
        f"{1000 * row['worst']:9.1f}{1000 * row['goal']:8.0f}{1000 * row['broken_median']:12.1f}"
        f"{1000 * row['placement']:11.2f}"
    )
    peer = row.get("peer")
    if not peer:
        return line
    times = peer["seconds"] / row["placement"]
    if not peer["proven"]:
        return f"{line}  {1000 * peer['seconds']:6.0f} ms, not proven, over {times:.0f} x ours"
    same = "same" if peer["value"] == row["value"] else "DIFFERENT"
    return f"{line}  {1000 * peer['seconds']:6.0f} ms, {same} value, {times:.0f} x ours"


HEAD = (
    f"{'timeline, time of the processor':<34}{'first ms':>9}{'median':>9}{'worst':>9}{'goal':>8}"
    f"{'in conflict':>12}{'placement':>11}  CP-SAT on the first day's placement"
)
