"""What a wedding's calendar says, and the studio's own: every entry, in the reader's language.

A new kind of entry is a function that takes the plan and yields entries, and its name in SOURCES.
Its words reach whoever keeps the calendar for the photographer: no care notes, no guests, and no
phones but those of who is in charge of a place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from .compute.planned import Plan
from .entries_ahead import answers_due, day_before, final_word, meeting, visit
from .entries_day import blocks, leaving
from .entries_ready import insurance_ends, night_after
from .entry import Entry

# In the order in which they are written; of each wedding.
SOURCES: tuple[Callable[[Plan], Iterable[Entry]], ...] = (
    answers_due,
    meeting,
    visit,
    final_word,
    day_before,
    leaving,
    blocks,
    night_after,
)
# What is no wedding's. In the season's calendar only.
STUDIO_SOURCES: tuple[Callable[[], Iterable[Entry]], ...] = (insurance_ends,)


def list_entries(plan: Plan) -> tuple[Entry, ...]:
    return tuple(entry for source in SOURCES for entry in source(plan))


def list_studio_entries() -> tuple[Entry, ...]:
    return tuple(entry for source in STUDIO_SOURCES for entry in source())
