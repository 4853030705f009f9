"""What left the answers though the photographer had settled something about it.

`intake.row_models.Anchor` keeps such a row out of sight. What is settled about a block hangs on
its day and only names the couple's time, so that it stays when the time is gone.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from django.db.models import Max, Min, Prefetch, Q, prefetch_related_objects

from intake.models import Day, Group, Moment, Place, Wedding
from intake.row_models import Anchor
from studio.templatetags.clock import clock

from .models import BlockDecision

ANCHORS: dict[str, type[Anchor]] = {"day": Day, "place": Place, "group": Group}
# The dates of a wedding where weddings are looked up by them.
LISTED = Q(days__removed_at=None)
FIRST, LAST = Min("days__date", filter=LISTED), Max("days__date", filter=LISTED)
READ_TAKEN_OUT = tuple(  # for `prefetch_related`, of many weddings at once
    Prefetch(f"{kind}s", model.with_removed.exclude(removed_at=None), to_attr=f"{kind}s_taken_out")
    for kind, model in ANCHORS.items()
)


def rows_taken_out(wedding: Wedding) -> Iterator[tuple[str, Anchor]]:
    prefetch_related_objects([wedding], *READ_TAKEN_OUT)
    for kind in ANCHORS:
        yield from ((kind, row) for row in getattr(wedding, f"{kind}s_taken_out"))


def name_of_row(row: Anchor) -> str | date:
    return row.date if isinstance(row, Day) else str(row)


def lost_blocks(wedding: Wedding) -> Iterator[tuple[BlockDecision, Moment | None]]:
    """What is settled on a day about a time that is gone, or on another day: then the time too.

    Keys of blocks begin with their day's or their moment's (compute/chain.py). A time that is on
    no day will be on one again.
    """
    moments = {moment.key: moment for moment in wedding.moments.all()}
    days = wedding.days.all()
    for day in days:
        of_day = {day.pk, None} if len(days) == 1 else {day.pk}
        here = {day.key} | {key for key, moment in moments.items() if moment.day_id in of_day}
        for decision in day.block_decisions.all():
            if not decision.kind and not any(_begins(decision.key, key) for key in here):
                named = (m for key, m in moments.items() if _begins(decision.key, key))
                moment = next(named, None)
                if moment is None or moment.day_id:
                    yield decision, moment


def _begins(block: str, key: str) -> bool:
    return block == key or block.startswith(f"{key}-")


def name_of(decision: BlockDecision, moment: Moment | None) -> str:
    """The couple's words for a time; where it is gone, when it was."""
    return str(moment) if moment else clock(decision.said)
