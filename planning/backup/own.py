"""Backups that Foreday makes by itself, into the data folder: before it changes all at once."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from .archive import BackupError, opened
from .make import make_backup

KEPT = 5  # of each kind


def backup_folder() -> Path:
    folder = settings.DATA_DIR / "backups"
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder


def own_backups(kind: str = "before-*") -> list[Path]:
    """The newest first: their names hold the time (UTC)."""
    found = (settings.DATA_DIR / "backups").glob(f"{kind}-*.zip")
    return sorted(found, key=lambda path: path.stem[-15:], reverse=True)


def before_migrating() -> Path | None:
    """A backup, where there is a database to keep and a migration waits.

    Raises BackupError or OSError.
    """
    executor = MigrationExecutor(connection)
    if not executor.loader.applied_migrations:
        return None
    if not executor.migration_plan(executor.loader.graph.leaf_nodes()):
        return None
    out = backup_folder() / f"before-migrate-{stamp()}.zip"
    make_backup(out)
    keep_the_last("before-migrate", out)
    return out


def keep_the_last(kind: str, made: Path) -> None:
    """The one just made stays in any case: a clock that was set back calls it the oldest."""
    found = [made, *(path for path in own_backups(kind) if path != made)]
    while len(found) > KEPT:
        too_many = least_missed(found)
        too_many.unlink()
        found.remove(too_many)


def least_missed(found: list[Path]) -> Path:
    """The oldest, but first one that was made at the same point of the way as a newer one.

    Where an update fails and is tried again and again, the backup from before the first try stays.
    """
    stood = [_stood(path) for path in found]
    twice = [path for i, path in enumerate(found) if stood[i] and stood[i] in stood[:i]]
    return (twice or found)[-1]


def _stood(path: Path) -> list[str]:
    """The migrations that a backup's database had been through; none where it is damaged."""
    try:
        with opened(path, path.name) as archive:
            return archive.manifest.migrations
    except BackupError:
        return []


def stamp() -> str:
    return f"{datetime.now(UTC):%Y%m%d-%H%M%S}"
