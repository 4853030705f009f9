"""What to cut when the day runs late: for each block and each lateness the least that helps."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Literal

from planning.compute.network.choices import Tail, cheapest, surest
from planning.compute.network.course import Course
from planning.compute.network.limits import Choice, Limits, is_drop
from planning.compute.network.values import CutPlan

LATE = (15, 30, 45, 60, 90)
MOST_LATE = 240


def cut_plans(course: Course, starts: Mapping[str, int]) -> tuple[CutPlan, ...]:
    """For the first block of each stretch: the first of the day and each fixed one."""
    posts = [i for i, block in enumerate(course.chain) if block.fixed is not None]
    return plans_from(course, starts, dict.fromkeys([0, *posts]), LATE)


def all_cuts(
    course: Course, starts: Mapping[str, int], lates: Collection[int] = LATE
) -> tuple[CutPlan, ...]:
    """For each block of the photographer's that has something to keep after it."""
    return plans_from(course, starts, range(len(course.chain)), lates)


def cuts_after(
    course: Course, starts: Mapping[str, int], key: str, lates: Collection[int] = LATE
) -> tuple[CutPlan, ...]:
    """For one block that ends `lates` minutes late (whole minutes, 0 to 240; ValueError beyond);
    nothing where nothing is to be kept after it, or it is not the photographer's."""
    firsts = [i for i, block in enumerate(course.chain) if block.key == key]
    return plans_from(course, starts, firsts, lates)


def plans_from(
    course: Course, starts: Mapping[str, int], firsts: Iterable[int], lates: Collection[int]
) -> tuple[CutPlan, ...]:
    for late in lates:
        if not isinstance(late, int) or not 0 <= late <= MOST_LATE:
            raise ValueError(f"a lateness is whole minutes from 0 to {MOST_LATE}, not {late!r}")
    shared: dict[tuple[int, bool], Limits] = {}
    found: list[CutPlan] = []
    for first in firsts:
        if (last := kept_after(course, first)) is not None:
            found += plans(Tail(course, starts, first, last, shared), sorted(set(lates)))
    return tuple(found)


def kept_after(course: Course, first: int) -> int | None:
    """The next fixed block; after the last of these, the last with a window."""
    later = range(first + 1, len(course.chain))
    posts = [i for i in later if course.chain[i].fixed is not None]
    windows = [i for i in later if course.chain[i].window is not None]
    return posts[0] if posts else windows[-1] if windows else None


def plans(tail: Tail, lates: Iterable[int]) -> Iterator[CutPlan]:
    for late in lates:
        choice, keeps, otherwise = cheapest(tail, late, tail.course.problem.wanted), tail.last, None
        if choice is None:
            choice = surest(tail, late)
            keeps = missed(tail, late, choice)
            otherwise = left_to_do(tail.course, keeps)
        cuts = tuple(cut for cut in choice if cut is not None)
        chance, key = tail.chance(late, choice) or 0.0, tail.course.chain[keeps].key
        yield CutPlan(tail.opening.key, late, key, cuts, chance, otherwise is None, otherwise)


def missed(tail: Tail, late: int, choice: Choice) -> int:
    """The fixed time or window on the way that is kept on the fewest days; of equals, the first."""
    chain = tail.course.chain
    posts = [
        i
        for i in range(tail.first + 1, tail.last)
        if chain[i].window is not None and not is_drop(choice[i - tail.first - 1])
    ]
    if not posts:
        return tail.last
    shares = [
        (tail.kept(i, True, late, choice[: i - tail.first]) or 0, i) for i in (*posts, tail.last)
    ]
    return min(shares)[1]


def left_to_do(course: Course, keeps: int) -> Literal["move", "ask", "miss"]:
    block = course.chain[keeps]
    if block.fixed is None:
        return "miss"
    return "move" if block.movable else "ask"
