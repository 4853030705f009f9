"""A wedding is erased: its rows, its files, and what the database file still holds of deleted rows.

Files go first, inside the transaction that takes the rows: where a file cannot be removed nothing
else is, and the wedding stays on the list to be erased again.
"""

from __future__ import annotations

import os
import sys
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass

from django.apps import apps
from django.conf import settings
from django.db import DatabaseError, connection, router, transaction
from django.db.models.deletion import Collector
from django.utils import timezone

from intake.models import Wedding
from intake.store import drop, store
from studio.sessions import forget_said

from .backup.files import named_files, stored_files
from .erasing_table import GOES
from .given import TOLD_FOR, cancel
from .models import GivenEntry


class NotErasedError(Exception):
    """Why nothing was erased, in one line."""


@dataclass(frozen=True)
class Survey:
    """What erasing takes away, and what it leaves.

    `rows` are counts under the words of erasing_table.GOES; `files` names in the store; `entries`
    how many entries of calendars stay as cancelled; `backups` names of what is in `backups/`.
    """

    rows: dict[str, int]
    files: tuple[str, ...]
    entries: int
    backups: tuple[str, ...]

    @property
    def total(self) -> int:
        return sum(self.rows.values())


def survey(wedding: Wedding) -> Survey:
    """Look, and change nothing."""
    counts = _counted(wedding)
    rows = {str(words): sum(counts[label] for label in labels) for words, labels in GOES.items()}
    files = named_files(apps, wedding=wedding.public_id)
    files |= set(stored_files(store(), wedding.public_id))
    return Survey(
        rows={words: count for words, count in rows.items() if count},
        files=tuple(sorted(files)),
        entries=_told(wedding).count(),
        backups=_backups(),
    )


def _backups() -> tuple[str, ...]:
    """What Foreday put aside in its own folder: backups, and databases found damaged."""
    return tuple(sorted(path.name for path in (settings.DATA_DIR / "backups").glob("*")))


def _counted(wedding: Wedding) -> Counter[str]:
    """How many rows of each table Django would delete with it."""
    collector = Collector(router.db_for_write(Wedding))
    collector.collect([wedding])
    found = {(model._meta.label, row.pk) for model, rows in collector.data.items() for row in rows}
    for rows in collector.fast_deletes:  # one row may be reached by several ways
        found |= {(rows.model._meta.label, pk) for pk in rows.values_list("pk", flat=True)}
    return Counter(label for label, _pk in found)


def erase(wedding: Wedding) -> Survey:
    """Take it away. Raises NotErasedError."""
    with transaction.atomic():
        # Whoever keeps an answer just now has done so before, or finds no wedding any more.
        wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
        found = survey(wedding)
        _take_files(found.files)
        _leave_cancelled(wedding)
        wedding.delete()
        forget_said()
    _take_folder(wedding.public_id)
    forget_plans()
    return found


def _take_files(names: tuple[str, ...]) -> None:
    try:
        drop(*names)
    except OSError as error:
        reason = error.strerror or error
        raise NotErasedError(
            f"A picture could not be removed ({reason}). Nothing else was: erase it again."
        ) from error


def _take_folder(public_id: str) -> None:
    """The empty folder, where files lie in folders."""
    with suppress(OSError, NotImplementedError):
        os.rmdir(store().path(public_id))


def _told(wedding: Wedding) -> object:
    """Entries of which a subscriber has to hear that they are cancelled, or may have to yet."""
    since = timezone.now() - TOLD_FOR
    return wedding.given_entries.exclude(cancelled=True, changed_at__lte=since)


def _leave_cancelled(wedding: Wedding) -> None:
    """Subscribed calendars let go of what they are told is cancelled; no word of it is left."""
    stays = list(_told(wedding).values_list("pk", flat=True))
    entries = GivenEntry.objects.filter(pk__in=stays)
    news = list(entries.filter(cancelled=False))
    for row in news:
        cancel(row, timezone.now())
    GivenEntry.objects.bulk_update(news, ["cancelled", "sequence", "changed_at"])
    entries.update(wedding=None, summary="", digest="")


def forget_told() -> int:
    """Take away what is left of erased weddings' calendars, once readers have had their time."""
    since = timezone.now() - TOLD_FOR
    rows = GivenEntry.objects.filter(wedding=None, cancelled=True, summary="")
    return rows.filter(changed_at__lte=since).delete()[0]


def forget_plans() -> None:
    """Empty this process's memory of plans and names; other processes have their own."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("planning.", "intake.")):
            for each in list(vars(module).values()):
                if callable(clear := getattr(each, "cache_clear", None)):
                    clear()


def overwrite_deleted() -> bool:
    """Take the words of deleted rows out of SQLite's own files; False where that must wait.

    SQLite leaves deleted words in the file until they are written over, VACUUM writes it anew. With
    PostgreSQL the server does so in its own time.
    """
    if connection.vendor != "sqlite":
        return True
    if connection.in_atomic_block:
        return False
    try:
        with connection.cursor() as cursor:
            cursor.execute("VACUUM")
            busy = cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    except DatabaseError:  # somebody writes just now, or the disk is full
        return False
    return not busy


def strays() -> list[str]:
    """Files in the store that lie in a folder of no wedding: left where a removal was cut off."""
    there = set(Wedding.objects.values_list("public_id", flat=True))
    return sorted(name for name in stored_files(store()) if name.split("/")[0] not in there)
