"""The ready list on paper: what is still open, from now to the second copy.

Titles and times alone: no names of guests, helpers or insurers.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from planning.compute.ready import ready_list
from planning.compute.ready_values import Entry
from planning.ready_brief import load_ready
from planning.ready_words import summary, title_of

from .subject import Reader, Subject


@dataclass(frozen=True)
class Line:
    """`boxes` is for how many days it is open."""

    title: str
    boxes: range


def has_wedding(subject: Subject) -> bool:
    return subject.wedding is not None


def ready(subject: Subject, reader: Reader) -> dict[str, Any]:
    """What is done once is counted, for it is done by then; each day's lines have a box a day."""
    now = timezone.now()
    found = ready_list(load_ready(subject.wedding.public_id), now)
    once = [entry for entry in found.open if entry.due is None or entry.item.due.when == "before"]
    daily = [entry for entry in found.open if entry not in once]
    return {
        "words": summary(found, now),
        "once": len(once),
        "lines": _together(daily),
        "several": len(found.brief.days) > 1,
    }


def _together(entries: list[Entry]) -> list[Line]:
    counted = Counter(title_of(entry.item) for entry in entries)
    return [Line(title, range(boxes)) for title, boxes in counted.items()]
