"""Handing calendars out: each entry beside what readers were told of it last.

Looking changes nothing that anybody planned. What is kept here is what left the house, so that
a reader who has an older state of an entry knows which of the two holds.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db import transaction
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext

from intake.models import Wedding

from .calendar_models import GivenEntry
from .entry import Entry, Stamped
from .ics import entry_uid, location_of

# How long a cancelled entry is still written, as cancelled: readers who look no more often than
# that keep one that is no more. Then it is left out, and nothing of it is shown anywhere.
TOLD_FOR = timedelta(days=30)
WRITTEN = ("wedding", "digest", "sequence", "changed_at", "cancelled", "summary", "starts", "ends")


@dataclass(frozen=True)
class Batch:
    """Every entry of one wedding, or the studio's own, where there is no wedding.

    `name` is what their UIDs are made of: the wedding's public id.
    """

    wedding: int | None
    name: str
    zone: str
    entries: tuple[Entry, ...]


def hand_out(batches: Sequence[Batch], kept: bool = True) -> list[Stamped]:
    """Every entry as it goes out now, and those cancelled lately; what is new is kept in mind,
    unless nobody is given it after all (HEAD)."""
    stamped, news = look(batches)
    if not news or not kept:
        return stamped
    with transaction.atomic():
        # Two readers who ask at once must not be given two states under one number.
        weddings = [batch.wedding for batch in batches if batch.wedding]
        list(Wedding.objects.select_for_update().filter(pk__in=weddings).order_by("pk"))
        stamped, news = look(batches)
        GivenEntry.objects.bulk_create(
            news, update_conflicts=True, unique_fields=["uid"], update_fields=WRITTEN
        )
    return stamped


def look(batches: Sequence[Batch]) -> tuple[list[Stamped], list[GivenEntry]]:
    """What would go out now, and the rows that it would write."""
    owners = Q(wedding__in=[batch.wedding for batch in batches if batch.wedding])
    if any(batch.wedding is None for batch in batches):
        owners |= Q(wedding=None)
    known: dict[int | None, dict[str, GivenEntry]] = {}
    for row in GivenEntry.objects.filter(owners).order_by("starts", "uid"):
        known.setdefault(row.wedding_id, {})[str(row.uid)] = row
    now = timezone.now().replace(microsecond=0)
    stamped: list[Stamped] = []
    news: list[GivenEntry] = []
    for batch in batches:
        rows = known.get(batch.wedding, {})
        for each, row in (*_present(batch, rows, now), *_cancelled(batch, rows, now)):
            stamped += [each] if each else []
            news += [row] if row else []
    return stamped, news


Found = Iterator[tuple[Stamped | None, GivenEntry | None]]


def _present(batch: Batch, rows: dict[str, GivenEntry], now: datetime) -> Found:
    """Each entry, with its row where that is new; its row is taken out of `rows`."""
    for entry in batch.entries:
        uid = entry_uid(batch.name, entry.key)
        old, digest = rows.pop(uid, None), digest_of(entry, batch.zone)
        if old and old.digest == digest and not old.cancelled:
            yield Stamped(entry, uid, batch.zone, old.sequence, old.changed_at), None
            continue
        row = GivenEntry(
            uid=uid,
            wedding_id=batch.wedding,
            digest=digest,
            sequence=old.sequence + 1 if old else 0,
            changed_at=_later(now, old),
            summary=entry.summary,
            starts=entry.start.isoformat(),
            ends=entry.end.isoformat(),
        )
        yield Stamped(entry, uid, batch.zone, row.sequence, row.changed_at), row


def cancel(row: GivenEntry, now: datetime) -> None:
    row.cancelled, row.sequence, row.changed_at = True, row.sequence + 1, _later(now, row)


def _later(now: datetime, old: GivenEntry | None) -> datetime:
    """Some readers go by the time alone: a change comes after the one before it, even where the
    clock was set back."""
    return max(now, old.changed_at + timedelta(seconds=1)) if old else now


def _cancelled(batch: Batch, rows: dict[str, GivenEntry], now: datetime) -> Found:
    """What was given out and is no more."""
    for uid, row in rows.items():
        is_new = not row.cancelled
        if is_new:
            cancel(row, now)
        told = row.changed_at > now - TOLD_FOR
        # In words too: some readers know no cancelled state.
        title = gettext("Cancelled: %(what)s") % {"what": row.summary}
        if not row.summary:  # of a wedding that was erased
            title = gettext("Cancelled")
        entry = Entry("", title, _moment(row.starts), _moment(row.ends))
        stamped = Stamped(entry, uid, batch.zone, row.sequence, row.changed_at, cancelled=True)
        yield stamped if told else None, row if is_new else None


def _moment(text: str) -> datetime | date:
    return datetime.fromisoformat(text) if "T" in text else date.fromisoformat(text)


def digest_of(entry: Entry, zone: str) -> str:
    """The same for two entries that a reader could not tell apart."""
    place = entry.place
    said = (
        zone,
        entry.summary,
        entry.start.isoformat(),
        entry.end.isoformat(),
        location_of(place) if place else "",
        (place.spot.latitude, place.spot.longitude) if place and place.spot else None,
        entry.lines,
        entry.contact,
        [alarm.total_seconds() for alarm in entry.alarms],
    )
    return hashlib.sha256(repr(said).encode()).hexdigest()
