"""From the placement of the chain to a plan of all blocks that every statement agrees with."""

from __future__ import annotations

from planning.compute.network.course import Course
from planning.compute.network.network import Network
from planning.compute.network.placement import best_starts, build_steps
from planning.compute.network.statements import ORIGIN, start
from planning.compute.network.wishes import pin, pinned_to_wishes

Bounds = dict[str, tuple[int, int | None]]


def place(course: Course, network: Network, bounds: Bounds) -> dict[str, int]:
    """A start for each block: first what was wished, then the best for the rest of the chain."""
    network, bounds = pinned_to_wishes(course, network, bounds)
    steps = build_steps(course, bounds)
    starts = {block.key: at for block, at in zip(course.chain, best_starts(steps), strict=True)}
    return with_others(course, network, starts)


def with_others(course: Course, network: Network, starts: dict[str, int]) -> dict[str, int]:
    """Blocks of other people are as early as the photographer's allow."""
    if len(course.chain) == len(course.blocks):
        return starts
    pinned = pin(network, starts)
    if pinned.negative_cycle():
        pinned = Network(network.origin, list(network.edges))
        for key, wished in starts.items():
            at = within(pinned, key, wished)
            pinned.say(ORIGIN, start(key), at, at)
    earliest = pinned.earliest()
    return {block.key: int(earliest[start(block.key)]) for block in course.blocks}


def within(network: Network, key: str, wished: int) -> int:
    """The nearest start to the one wished for that those before leave."""
    low, high = network.earliest()[start(key)], network.latest()[start(key)]
    return int(min(max(wished, low), high))
