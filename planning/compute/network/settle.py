"""From the placement of the chain to a plan of all blocks that every statement agrees with."""

from __future__ import annotations

from planning.compute.network.course import Course
from planning.compute.network.network import Network
from planning.compute.network.placement import best_starts, build_steps
from planning.compute.network.statements import ORIGIN, start


def place(
    course: Course, network: Network, bounds: dict[str, tuple[int, int | None]]
) -> dict[str, int]:
    """A start for each block; those of other people are as early as the photographer's allow."""
    steps = build_steps(course, bounds)
    starts = {block.key: at for block, at in zip(course.chain, best_starts(steps), strict=True)}
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


def pin(network: Network, starts: dict[str, int]) -> Network:
    pinned = Network(network.origin, list(network.edges))
    for key, at in starts.items():
        pinned.say(ORIGIN, start(key), at, at)
    return pinned


def within(network: Network, key: str, wished: int) -> int:
    """The nearest start to the one wished for that those before leave."""
    low, high = network.earliest()[start(key)], network.latest()[start(key)]
    return int(min(max(wished, low), high))
