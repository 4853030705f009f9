"""What photographers keep, one after the other, on either database.

On SQLite every transaction waits for the one before (`transaction_mode` in studio/settings.py). On
PostgreSQL two would read the same rows and write over each other, so that a second click made a
second wedding. A studio has few photographers, and couples do not wait here: what they keep waits
for their own wedding's row alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection, transaction

OURS = 7030  # the number of our lock in PostgreSQL, beside that of planning/serving.py


@contextmanager
def in_turn() -> Iterator[None]:
    """A transaction, as a block or as `@in_turn()`; the lock goes with its end."""
    with transaction.atomic():
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SELECT pg_advisory_xact_lock(%s)", [OURS])
        yield
