"""The measures of the ribbon, and where a moment stands on it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from .compute.planned import Block, Day
from .compute.settled import BOTH

LEFT, WIDTH, TOP = 150, 900, 24
BAR, LINE = 28, 17  # heights of a block and of a line of labels
LETTER = 6.4  # a generous mean width of a letter at 12 px
INK, PINE, HAIR = "#22262B", "#1E5B4F", "#DAD5CA"


@dataclass(frozen=True)
class Scale:
    start: datetime
    end: datetime

    def x(self, at: datetime) -> float:
        # By instants: two times of one zone, subtracted, would forget a clock change.
        start, end = self.start.timestamp(), self.end.timestamp()
        share = (at.timestamp() - start) / (end - start)
        return round(LEFT + WIDTH * min(max(share, 0), 1), 1)


def scale_of(day: Day) -> Scale:
    """Whole hours around both photographers' blocks."""
    hour = timedelta(hours=1)
    blocks = (*day.blocks, *theirs(day))
    start = min(block.start for block in blocks).replace(minute=0, second=0)
    end = (max(block.end for block in blocks) + hour).replace(minute=0, second=0)
    return Scale(start, end)


def theirs(day: Day) -> list[Block]:
    """What the second photographer does alone."""
    blocks = day.second.blocks if day.second else ()
    return [block for block in blocks if block.kind != "travel" and block.who != BOTH]
