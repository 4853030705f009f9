"""Labels on a drawing, each where nothing else stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

LETTER = 0.56  # a generous mean width of a letter, in sizes of its type


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


class Label(NamedTuple):
    """Text centred on a point; `y` is its baseline."""

    text: str
    x: float
    y: float
    size: float


def box_of(text: str, x: float, y: float, size: float) -> Box:
    """The ground that a text centred on (x, y) takes."""
    half = max(len(text), 1) * size * LETTER / 2 + 1
    return Box(x - half, y - size * 0.55, x + half, y + size * 0.55)


@dataclass
class Ground:
    """A drawing's ground; what is `taken` stays free of labels."""

    edge: Box
    taken: list[Box] = field(default_factory=list)
    written: list[Box] = field(default_factory=list)

    def keep_free(self, points: Iterable[tuple[float, float]], around: float = 2.5) -> None:
        self.taken += [Box(x - around, y - around, x + around, y + around) for x, y in points]

    def crosses(self, points: Iterable[tuple[float, float]]) -> bool:
        """Whether a line through these points would run over a label."""
        return any(
            box.left <= x <= box.right and box.top <= y <= box.bottom
            for x, y in points
            for box in self.written
        )

    def place(
        self, text: str, candidates: Iterable[tuple[float, float]], size: float
    ) -> Label | None:
        """The text at the first candidate where it stands free; None where there is none."""
        for x, y in candidates:
            box = box_of(text, x, y, size)
            inside = (
                box.left >= self.edge.left
                and box.right <= self.edge.right
                and box.top >= self.edge.top
                and box.bottom <= self.edge.bottom
            )
            if inside and not any(box.meets(other) for other in self.taken):
                self.taken.append(box)
                self.written.append(box)
                return Label(text, round(x, 1), round(y + size * 0.35, 1), size)
        return None
