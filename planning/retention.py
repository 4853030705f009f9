"""How long answers are kept after a wedding's last day, and which weddings are past that."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import QuerySet
from django.utils import timezone

from intake.models import Wedding
from intake.store import drop, store
from studio.models import Studio

from .erasing import strays
from .taken_out import LAST

SOON = timedelta(days=30)  # so long before, Season begins to say it
SHOWN = 5
UPLOAD = timedelta(days=1)  # a file that is younger may be on its way to its wedding


@dataclass(frozen=True)
class Due:
    """A wedding (its public id), its last day, and by when its answers are to be erased."""

    wedding: str
    last: date
    by: date


@dataclass(frozen=True)
class Reminder:
    """One line of Season's note."""

    wedding: Wedding
    by: date
    is_late: bool


def months_after(day: date, months: int) -> date:
    """The same day of the month, or the month's last where it has no such day."""
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def today_of(studio: Studio) -> date:
    return timezone.now().astimezone(ZoneInfo(studio.zone)).date()


def due_by(until: date, studio: Studio) -> list[Due]:
    """Those whose time is over by a date, the one that waits longest first."""
    months = studio.keep_months
    could = Wedding.objects.annotate(last=LAST).filter(last__lte=until - timedelta(28 * months))
    rows = could.values_list("public_id", "last")
    found = [Due(public_id, last, months_after(last, months)) for public_id, last in rows]
    return sorted((due for due in found if due.by <= until), key=lambda due: (due.by, due.wedding))


def undated(studio: Studio) -> QuerySet[Wedding]:
    """Those that have no date, and were entered before as long a time: somebody has to look."""
    before = timezone.now() - timedelta(days=31 * studio.keep_months)
    return Wedding.objects.annotate(last=LAST).filter(last=None, created_at__lt=before)


def reminders(studio: Studio) -> dict[str, Any]:
    """What is to be erased within SOON, and how many more than are shown, for Season's page."""
    today = today_of(studio)
    due = due_by(today + SOON, studio)
    names = [each.wedding for each in due[:SHOWN]]
    rows = Wedding.objects.prefetch_related("partners").in_bulk(names, field_name="public_id")
    lines = [Reminder(rows[d.wedding], d.by, d.by <= today) for d in due[:SHOWN]]
    return {"to_erase": lines, "more_to_erase": max(0, len(due) - SHOWN)}


def sweep() -> int:
    """Take away files that belong to no wedding any more, and say how many."""
    old = [name for name in strays() if _age(name) > UPLOAD]
    drop(*old)
    return len(old)


def _age(name: str) -> timedelta:
    changed: datetime = store().get_modified_time(name)
    return timezone.now() - changed
