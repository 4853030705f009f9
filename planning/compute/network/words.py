"""Small pieces of the sentences."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

OVER = 0.995


def length(minutes: int) -> str:
    return "1 minute" if minutes == 1 else f"{minutes} minutes"


def quote(name: str | None) -> str:
    return f'"{name or "home"}"'


def joined(words: Sequence[str]) -> str:
    """one, two and three"""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def in_hundred(chance: float) -> str:
    """A chance for people; never told as certain, whatever the simulated days say."""
    if chance >= OVER:
        return "over 99 %"
    if chance < 1 - OVER:
        return "under 1 %"
    return f"{floor(100 * chance + 0.5)} %"
