"""Sums over sets written as masks, each remembered once it was asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import add


class Sums(dict[int, int]):
    """`sums[mask]`: what `each` comes to over the ones of a mask, put together by `put`."""

    def __init__(self, each: Sequence[int], put: Callable[[int, int], int] = add) -> None:
        super().__init__({0: 0})
        self.each = each
        self.put = put

    def __missing__(self, mask: int) -> int:
        total, rest = 0, mask
        while rest:
            low = rest & -rest
            total = self.put(total, self.each[low.bit_length() - 1])
            rest ^= low
        self[mask] = total
        return total
