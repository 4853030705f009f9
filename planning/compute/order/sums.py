"""Sums over sets written as masks, each remembered once it was asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import reduce
from operator import add


class Sums(dict[int, int]):
    """`sums[mask]`: what `each` comes to over the ones of a mask, put together by `put`."""

    def __init__(self, each: Sequence[int], put: Callable[[int, int], int] = add) -> None:
        super().__init__({0: 0})
        self.put = put
        self.tables = [eight(each[start : start + 8], put) for start in range(0, len(each), 8)]

    def __missing__(self, mask: int) -> int:
        eights = zip(self.tables, mask.to_bytes(len(self.tables), "little"), strict=True)
        total = self[mask] = reduce(self.put, [table[part] for table, part in eights], 0)
        return total


def eight(each: Sequence[int], put: Callable[[int, int], int]) -> list[int]:
    """What every set of up to eight comes to, so that sets of hundreds take few steps."""
    table = [0]
    for value in each:
        table += [put(value, other) for other in table]
    return table
