"""How long answers are kept after a wedding's last day, and which weddings are past that."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import OuterRef, QuerySet, Subquery
from django.utils import timezone

from intake.models import StepState, Wedding
from intake.store import drop, store
from studio.models import Studio

from .erasing import strays
from .taken_out import LAST

SOON = timedelta(days=30)  # so long before, Season begins to say it
TYPED = (  # when anybody last kept a page of it
    StepState.objects.filter(wedding=OuterRef("pk")).order_by("-saved_at").values("saved_at")
)
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
    earliest = until - timedelta(28 * studio.keep_months)
    typed = Subquery(TYPED.exclude(saved_at=None)[:1])
    could = Wedding.objects.annotate(last=LAST, typed=typed).filter(last__lte=earliest)
    rows = could.values_list("public_id", "last", "created_at", "sent_at", "typed")
    found = [Due(public_id, last, _by(last, at, studio)) for public_id, last, *at in rows]
    return sorted((due for due in found if due.by <= until), key=lambda due: (due.by, due.wedding))


def is_over(last: date, wedding: Wedding) -> bool:
    """Whether a wedding whose last day that were would have been kept for as long as it may be."""
    studio = Studio.get()
    entered = wedding.created_at.astimezone(ZoneInfo(studio.zone)).date()
    return months_after(max(last, entered), studio.keep_months) <= today_of(studio)


def _by(last: date, heard: list[datetime | None], studio: Studio) -> date:
    """Months after the last day; but a slip in its year, by whoever typed it, must not erase all
    tonight. So none are counted before the wedding was entered (the first of `heard`), and Season
    says it for SOON after anybody was heard of. What a clock wrote that was ahead says nothing.
    """
    now, zone = timezone.now(), ZoneInfo(studio.zone)
    days = [at.astimezone(zone).date() if at and at <= now else date.min for at in heard]
    return max(months_after(max(last, days[0]), studio.keep_months), max(days) + SOON)


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
