"""The group order measured: invented weddings and published lists, with CP-SAT beside."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from os import cpu_count
from pathlib import Path
from statistics import median
from typing import Any

from planning.bench.peer import solve_with_peer
from planning.bench.weddings import wedding
from planning.compute.order import (
    Apart,
    Before,
    Free,
    Last,
    Photograph,
    Problem,
    solve,
)

PUBLISHED = Path(__file__).parents[2] / "tests" / "evidence" / "group-order.json"
LIMIT = 20.0


@dataclass(frozen=True, slots=True)
class Work:
    """Lists of one kind; `goal` in seconds for each to be proven in, None where none is set."""

    title: str
    problems: tuple[Problem, ...]
    goal: float | None


def with_rules(groups: int, seed: int, **options: Any) -> Problem:
    """A wedding list with one rule of each kind; the estranged share no frame."""
    problem = wedding(groups, seed, **options)
    count = Counter(person for photograph in problem.photographs for person in photograph.people)
    several = [person for person in count if count[person] > 1]
    one, *rare = sorted(several, key=lambda person: (count[person], person))
    other = next(
        person
        for person in rare
        if any(one in p.people and person not in p.people for p in problem.photographs)
    )
    photographs = tuple(parted(photograph, one, other) for photograph in problem.photographs)
    smallest = min(photographs, key=lambda photograph: photograph.size).key
    early, late = [key for key in problem.keys if key != smallest][:2]
    free = next(person for person in rare if person != other)
    rules = (Last(smallest), Before(early, late), Free(free, groups - 1), Apart(one, other))
    named = {person for photograph in photographs for person in photograph.people}
    weights = {person: weight for person, weight in problem.weights.items() if person in named}
    return replace(problem, photographs=photographs, weights=weights, rules=rules)


def parted(photograph: Photograph, one: str, other: str) -> Photograph:
    """Without `one` where both would stand in it."""
    if not {one, other} <= set(photograph.people):
        return photograph
    return replace(photograph, people=tuple(p for p in photograph.people if p != one))


def works(lists: int, seconds: float) -> Iterator[Work]:
    def row(
        title: str, make: Callable[..., Problem], n: int, goal: float | None, **options: Any
    ) -> Work:
        limit = options.pop("seconds", seconds)
        made = tuple(make(n, seed, seconds=limit, **options) for seed in range(lists))
        return Work(f"{title}, {n} groups", made, goal)

    for n, goal in ((8, 0.005), (20, 0.02), (40, 0.1), (60, 1.0)):
        yield row("gathered", wedding, n, goal)
    for n, goal in ((16, 0.3), (24, 1.5), (30, 5.0)):
        yield row("gathered, walks 0.2", wedding, n, goal, walk_price=0.2)
    for n, goal in ((16, 0.3), (24, 1.5), (30, 5.0)):
        yield row("gathered, walks and rules", with_rules, n, goal, walk_price=0.2)
    for n in (8, 12, 16, 20):
        yield row("called", wedding, n, None, presence="called")
    for n in (25, 30):
        yield row("called, 1 s", wedding, n, None, presence="called", seconds=1.0)
    yield from published(seconds)


def published(seconds: float) -> Iterator[Work]:
    """Talent scheduling from the literature; each source stands in the file."""
    if not PUBLISHED.exists():
        return
    for instance in json.loads(PUBLISHED.read_text())["instances"]:
        rows = {f"p{p}": row for p, row in enumerate(instance["rows"]) if "1" in row}
        photographs = tuple(
            Photograph(
                str(g + 1), tuple(p for p, row in rows.items() if row[g] == "1"), minutes=minutes
            )
            for g, minutes in enumerate(instance["durations"])
        )
        weights = {f"p{p}": w for p, w in enumerate(instance["weights"]) if f"p{p}" in rows}
        problem = Problem(photographs, "called", seconds=seconds, weights=weights)
        yield Work(f"published: {instance['name']}", (problem,), 0.5)


def measured(work: Work, peer_seconds: float) -> dict[str, Any]:
    """Our times on every list, and the peer's on the first one (without rules: it has none)."""
    answers = [solve(problem) for problem in work.problems]
    times = [answer.seconds for answer in answers]
    gaps = [answer.gap for answer in answers if not answer.proven]
    row: dict[str, Any] = {
        "work": work.title,
        "lists": len(answers),
        "proven": sum(answer.proven for answer in answers),
        "median": median(times),
        "worst": max(times),
        "worst_gap": max((gap for gap in gaps if gap is not None), default=0.0),
        "goal": work.goal,
        "first": times[0],
        "first_cost": answers[0].measure.cost,
    }
    first = work.problems[0]
    if peer_seconds and not first.rules:
        peer = solve_with_peer(first, peer_seconds, cpu_count() or 1)
        if peer:
            row["peer"] = {
                "seconds": peer.seconds,
                "proven": peer.proven,
                "cost": peer.cost,
                "bound": peer.bound,
            }
    return row


def as_line(row: dict[str, Any]) -> str:
    goal = f"{1000 * row['goal']:8.0f}" if row["goal"] else "       -"
    line = (
        f"{row['work']:<46}{row['proven']:>4}/{row['lists']:<3}{1000 * row['median']:9.1f}"
        f"{1000 * row['worst']:9.1f}{goal}  {100 * row['worst_gap']:5.1f} %"
    )
    peer = row.get("peer")
    if not peer:
        return line
    times = peer["seconds"] / row["first"]
    if peer["proven"]:
        same = "same" if abs(peer["cost"] - row["first_cost"]) < 1e-6 else "DIFFERENT"
        return f"{line}  {peer['seconds']:6.2f} s, {same} cost, {times:.0f} x ours"
    if peer["cost"] is None:
        return f"{line}  {peer['seconds']:6.2f} s, no order found"
    above = 100 * (peer["cost"] / peer["bound"] - 1) if peer["bound"] > 0 else float("inf")
    return (
        f"{line}  {peer['seconds']:6.2f} s, not proven ({above:.0f} % gap), over {times:.0f} x ours"
    )


HEAD = (
    f"{'group order':<46}{'proven':>8}{'median ms':>9}{'worst':>9}{'goal':>8}  {'gap':>7}"
    "  CP-SAT on the first list"
)
