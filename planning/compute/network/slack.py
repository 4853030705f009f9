"""The slack of each stretch: minutes between two fixed times that nothing fills."""

from __future__ import annotations

from itertools import pairwise

from planning.compute.network.course import Course
from planning.compute.network.values import Stretch


def stretches(course: Course) -> tuple[Stretch, ...]:
    """From each fixed block of the photographer's to the next one; below 0 where time is short.

    All blocks of a stretch share its slack: what one of them uses, the others lose.
    """
    posts = [i for i, block in enumerate(course.chain) if block.fixed is not None]
    return tuple(between(course, one, other) for one, other in pairwise(posts))


def between(course: Course, one: int, other: int) -> Stretch:
    first, last = course.chain[one], course.chain[other]
    needed = sum(round(block.law.likely) for block in course.chain[one:other])
    needed += sum(course.gaps[one + 1 : other + 1])
    return Stretch(first.key, last.key, (last.fixed or 0) - (first.fixed or 0) - needed)
