"""The database into one SQLite file, and back.

SQLite is copied by its own backup interface, which reads one moment of it while people write;
PostgreSQL is read in one transaction that sees one moment too. Back it goes in one transaction on
either of them, so that it is never half done.
"""

from __future__ import annotations

import secrets
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.core.management.color import no_style
from django.db import ConnectionHandler, DatabaseError, connection, connections, transaction

from .archive import BackupError
from .rows import applied, copy_rows, forget_what_is_left_out, kept_models, migrate_to, models_at

PATIENCE = 30  # seconds for whoever writes just now
PLAIN = "PRAGMA journal_mode=DELETE;PRAGMA synchronous=FULL;PRAGMA foreign_keys=ON;"


@contextmanager
def at(path: Path) -> Iterator[str]:
    """A database file under an alias of its own."""
    settings = {"ENGINE": "django.db.backends.sqlite3", "NAME": str(path)}
    settings["OPTIONS"] = {"init_command": PLAIN}
    alias = f"file-{secrets.token_hex(4)}"
    connections.databases[alias] = ConnectionHandler().configure_settings({"default": settings})[
        "default"
    ]
    try:
        yield alias
    finally:
        connections[alias].close()
        del connections[alias]
        del connections.databases[alias]


def snapshot(path: Path) -> None:
    """This place's database as a file: one moment of it, whole, and without what was deleted."""
    path.touch(0o600)
    try:
        if connection.vendor == "sqlite":
            connection.ensure_connection()
            with _raw(path) as target:
                connection.connection.backup(target)
        nodes = applied("default")
        apps = models_at(nodes)
        with at(path) as alias:
            if connection.vendor != "sqlite":
                _fill(apps, nodes, alias)
            forget_what_is_left_out(apps, alias)
            with connections[alias].cursor() as cursor:
                cursor.execute("VACUUM")  # takes the words of deleted rows out of the file
            must_be_sound(alias)
    except DatabaseError as error:
        raise BackupError(f"The database cannot be copied: {error}.") from error
    except sqlite3.Error as error:
        raise BackupError(f"The database cannot be copied: {error}.") from error


def _fill(apps: Any, nodes: set, alias: str) -> None:
    migrate_to(alias, nodes)
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        _empty(apps, alias)
        copy_rows(apps, "default", alias)


def _empty(apps: Any, alias: str) -> None:
    """Take away what migrations had put in: the rows that come bring their own."""
    for model in reversed(kept_models(apps)):
        model._base_manager.using(alias).all().delete()


def must_be_sound(alias: str) -> None:
    """Raises BackupError where a file is damaged, or holds what no database of ours has."""
    with connections[alias].cursor() as cursor:
        found = cursor.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if found != "ok":
            raise BackupError(f"The database is damaged: {found}.")
        if cursor.execute("PRAGMA foreign_key_check").fetchone():
            raise BackupError("The database is damaged: a row belongs to nothing.")
        tables = ["table", "index"]
        cursor.execute("SELECT name FROM sqlite_master WHERE type NOT IN (%s, %s)", tables)
        if cursor.fetchone():
            raise BackupError("The database has parts that none of Foreday has.")


def must_be_ours(alias: str) -> None:
    """Raises BackupError where a database that is up to date has tables that ours has not."""
    known = {"django_migrations", *connections[alias].introspection.django_table_names()}
    if set(connections[alias].introspection.table_names()) - known:
        raise BackupError("The database has parts that none of Foreday has.")


def put_in_place(path: Path) -> None:
    """Make this place's database what the file is, which must be up to date. All or nothing."""
    if connection.vendor != "sqlite":
        return _put_into_tables(path)
    connection.ensure_connection()
    until = time.monotonic() + PATIENCE

    def give_up(status: int, _left: int, _all: int) -> None:
        # Done in one step, however long that took: what is said then is too late to stop it.
        if status != sqlite3.SQLITE_DONE and time.monotonic() > until:
            raise BackupError("The database is locked by another program. Stop it first.")

    with _raw(path) as source:
        source.backup(connection.connection, progress=give_up)
    connection.close()
    return None


def _put_into_tables(path: Path) -> None:
    call_command("migrate", verbosity=0, interactive=False, skip_backup=True)
    apps = models_at(applied("default"))
    with at(path) as alias, transaction.atomic():
        call_command("flush", verbosity=0, interactive=False, inhibit_post_migrate=True)
        copy_rows(apps, alias, "default")
        # Where the next row of each table is counted from. Django's own way to run a list of SQL.
        counted_from = connection.ops.sequence_reset_sql(no_style(), kept_models(apps))
        connection.ops.execute_sql_flush(counted_from)


@contextmanager
def _raw(path: Path) -> Iterator[sqlite3.Connection]:
    raw = sqlite3.connect(path)
    try:
        yield raw
    finally:
        raw.close()


def trouble() -> str:
    """What is wrong with the database file that lies here, or nothing."""
    try:
        connection.introspection.table_names()
        if connection.vendor == "sqlite":
            must_be_sound("default")
    except BackupError as error:
        return str(error)
    except DatabaseError as error:
        if connection.vendor != "sqlite" or "locked" in str(error):
            raise
        return f"The database is damaged: {error}."
    return ""


def set_aside(folder: Path) -> list[Path]:
    """Move a damaged SQLite file, and what belongs to it, into a folder.

    The file itself last: SQLite takes away a journal that it finds without one.
    """
    connection.close()
    here = Path(connection.settings_dict["NAME"])
    moved = []
    for ending in ("-wal", "-shm", ""):
        with suppress(FileNotFoundError):
            moved.append(here.with_name(here.name + ending).rename(folder / (here.name + ending)))
    return moved
