"""A backup is put back: checked to the end first, then pictures, database, key, in this order.

What a kill can leave behind is a picture without a row, never a row without its picture, and never
a part of a database; the same restore, given again, ends it (begun.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from django.apps import apps
from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.files.base import ContentFile
from django.core.management import call_command
from django.db import DatabaseError, connection
from django.db.migrations.exceptions import InconsistentMigrationHistory

from intake.models import Wedding
from intake.store import store
from studio.data_folder import is_key
from studio.disk import written_whole
from studio.models import Studio

from . import database
from .archive import DATABASE, KEY, NAMES, PICTURES, Archive, BackupError, Manifest, opened
from .begun import begin, end, is_begun
from .files import named_files, stored_files
from .make import key_mark, make_backup, work_folder
from .own import backup_folder, keep_the_last, stamp
from .rows import unknown

# What migrations come to in a database that another program has made.
NONE_OF_OURS = (DatabaseError, InconsistentMigrationHistory, TypeError, ValueError)


@dataclass
class Restored:
    """`before` is the backup of what was here, or the folder of what could not be read any more."""

    manifest: Manifest
    pictures: int
    before: Path | None = None
    links_open: bool = False


def restore(path: Path, replace: bool = False) -> Restored:
    """Put a backup in place. Raises BackupError, and then nothing was changed."""
    try:
        with opened(path, str(path)) as archive:
            archive.check()
            _must_be_known(archive)
            with work_folder() as work:
                fresh = _brought_up_to_date(archive, work / DATABASE)
                before = _make_way(replace, is_begun(archive))
                done = _put(archive, fresh, before)
            end()  # last: a kill before it, even among our own leavings, is mended by the next run
            return done
    except OSError as error:
        raise BackupError(f"{error.filename or path}: {error.strerror or error}.") from error
    except DatabaseError as error:
        raise BackupError(f"The database did not take it: {error}.") from error


def _must_be_known(archive: Archive) -> None:
    nodes = {tuple(each.split(".", 1)) for each in archive.manifest.migrations}
    if KEY in archive.manifest.members and not is_key(b"".join(archive.chunks(KEY))):
        raise BackupError(f"{archive.name}: the secret key in it cannot be used.")
    if unknown(nodes):
        version = archive.manifest.version
        raise BackupError(f"{archive.name}: made by a newer Foreday ({version}). Update this one.")


def _brought_up_to_date(archive: Archive, path: Path) -> Path:
    """The database of the backup beside ours, sound, and with every migration of this version."""
    path.touch(0o600)
    with path.open("wb") as file:
        for chunk in archive.chunks(DATABASE):
            file.write(chunk)
    try:
        with database.at(path) as alias:
            database.must_be_sound(alias)
            call_command("migrate", database=alias, verbosity=0, interactive=False)
            database.must_be_sound(alias)
            _must_be_ours(alias)
    except NONE_OF_OURS as error:
        raise BackupError(f"{archive.name}: its database cannot be read: {error}.") from error
    return path


def _must_be_ours(alias: str) -> None:
    """Raises BackupError where an up-to-date database holds what none of ours could."""
    database.must_be_ours(alias)
    if not all(NAMES.fullmatch(PICTURES + name) for name in named_files(apps, alias)):
        raise BackupError("The database names a file that no backup has.")


def _make_way(replace: bool, begun: bool) -> Path | None:
    """Look at what is here; with `replace` keep it first. Raises BackupError.

    Where the same was begun and cut off, what is here is its own, or somebody worked with it since:
    it is kept, too.
    """
    trouble = database.trouble()
    here = "" if trouble else what_is_here(with_files=not begun)
    if not (trouble or here):
        return None
    if not (replace or begun):
        why = trouble or f"This place is not empty ({here})."
        raise BackupError(f"{why} --replace puts the backup in its place, and keeps it first.")
    if not trouble:
        out = backup_folder() / f"before-restore-{stamp()}.zip"
        make_backup(out)
        keep_the_last("before-restore", out)
        return out
    folder = backup_folder() / f"damaged-{stamp()}"
    folder.mkdir(mode=0o700)
    database.set_aside(folder)
    return folder


def what_is_here(with_files: bool = True) -> str:
    """Weddings, accounts and pictures in words, or nothing in an empty place."""
    tables = set(connection.introspection.table_names())
    counts = {
        what: model._base_manager.count() if model._meta.db_table in tables else 0
        for what, model in (("weddings", Wedding), ("accounts", get_user_model()))
    }
    studio = Studio._meta.db_table in tables and Studio.objects.values("pk").exists()
    if with_files:
        counts["files of pictures"] = sum(1 for _name in stored_files(store()))
    if not (studio or any(counts.values())):
        return ""
    return ", ".join(f"{what}: {count}" for what, count in counts.items())


def _put(archive: Archive, fresh: Path, before: Path | None) -> Restored:
    begin(archive)
    for name in archive.pictures:
        _put_picture(archive, name)
    key = b"".join(archive.chunks(KEY)) if KEY in archive.manifest.members else b""
    if key and settings.KEY_FILE:
        _put_with_key(archive, fresh, key)
    else:
        database.put_in_place(fresh)
    _sweep()
    same = archive.manifest.key_mark == key_mark(settings.SECRET_KEY)
    own_key = bool(key and settings.KEY_FILE)
    return Restored(archive.manifest, len(archive.pictures), before, own_key or same)


def _put_with_key(archive: Archive, fresh: Path, key: bytes) -> None:
    begin(archive, key_waits=settings.KEY_FILE.read_bytes() != key)
    try:
        database.put_in_place(fresh)
    except Exception:
        begin(archive)  # nothing has changed; of Ctrl-C, which is heard late, nobody knows
        raise
    with written_whole(settings.KEY_FILE) as file:
        file.write(key)


def _put_picture(archive: Archive, name: str) -> None:
    content = b"".join(archive.chunks(PICTURES + name))  # 20 MB at most, as intake/store.py has it
    if store().exists(name):
        with store().open(name) as file:
            if file.read() == content:
                return
        store().delete(name)
    store().save(name, ContentFile(content))


def _sweep() -> None:
    """Take away pictures that no row names any more; the backup before has them."""
    named = named_files(apps)
    for name in list(stored_files(store())):
        if name not in named:
            store().delete(name)
