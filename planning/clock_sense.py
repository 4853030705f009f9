"""Whether the machine's clock can be believed, asked before anything is erased by it.

A battery that is empty or a mistyped year makes ten years of one night, and every wedding due. The
day of the last erasing run is kept in the data folder; a clock that has gone on by more than Season
reminds ahead is asked about, so that nothing goes of which nobody could have read there.
"""

from __future__ import annotations

from datetime import date, datetime

from django.conf import settings
from django.db.models import Max

from intake.models import StepState, Wedding
from studio.disk import written_whole

from .retention import SOON

NOTE = "last-retention"


def leap(today: date) -> tuple[date, date] | None:
    """From which day to which the clock has leapt, or None where it has just gone on."""
    last = _noted() or _last_heard()
    return (last, today) if last and today - last > SOON else None


def note(today: date) -> None:
    """A clock that was set back leaves the later day. Raises OSError."""
    if (last := _noted()) and last >= today:
        return
    with written_whole(settings.DATA_DIR / NOTE) as file:
        file.write(today.isoformat().encode())


def _noted() -> date | None:
    try:
        return date.fromisoformat((settings.DATA_DIR / NOTE).read_text())
    except (FileNotFoundError, ValueError):
        return None


def _last_heard() -> date | None:
    """When anybody last did something here, for the first run."""
    times: list[datetime | None] = [
        *Wedding.objects.aggregate(Max("created_at"), Max("sent_at")).values(),
        *StepState.objects.aggregate(Max("saved_at")).values(),
    ]
    return max((each.date() for each in times if each), default=None)
