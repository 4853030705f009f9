"""A backup is made: a moment of the database, every picture that it names, and the key."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO

from django.conf import settings
from django.db import connection
from django.utils.crypto import salted_hmac

from intake.store import store
from studio.disk import TAIL, at_work_in, take_left_behind, written_whole
from studio.versions import VERSION

from . import archive, database
from .archive import DATABASE, KEY, PICTURES, BackupError, Manifest, Packer
from .files import named_files
from .rows import applied, models_at, unknown

TRIES = 3  # a picture may be taken away while the others are being copied
AT_WORK = ".work-"


class VanishedError(Exception):
    """A picture that a row names has no file."""


def make_backup(out: Path, with_key: bool = True) -> Manifest:
    """Write a backup to `out`, whole or not at all. Raises BackupError."""
    if newer := unknown(applied("default")):
        raise BackupError(f"A newer Foreday was here ({len(newer)} migrations). Update this one.")
    try:
        _must_be_free(out)
        with work_folder() as work, written_whole(out) as file:
            manifest = _pack(file, work, with_key)
            file.seek(0)
            with archive.opened(file, str(out)) as written:
                written.check()  # read back before it gets its name
            return manifest
    except OSError as error:
        raise BackupError(f"Cannot write {out}: {error.strerror or error}.") from error


def _must_be_free(out: Path) -> None:
    """An older backup makes way for a new one; nothing else does."""
    if out.is_dir():
        raise BackupError(f"{out} is a folder. Name a file in it, such as foreday.zip.")
    if out.exists():
        try:
            with archive.opened(out, str(out)):
                pass
        except BackupError:
            raise BackupError(
                f"{out} is there already and is no backup of Foreday. Choose another name."
            ) from None


def _pack(file: BinaryIO, work: Path, with_key: bool) -> Manifest:
    """Once more from the start where a couple took a picture away meanwhile."""
    for _attempt in range(TRIES):
        with suppress(VanishedError):
            return _pack_once(file, work / DATABASE, with_key, must_be_whole=True)
    return _pack_once(file, work / DATABASE, with_key, must_be_whole=False)


def _pack_once(file: BinaryIO, path: Path, with_key: bool, must_be_whole: bool) -> Manifest:
    file.seek(0)
    file.truncate()
    path.unlink(missing_ok=True)
    database.snapshot(path)
    packer = Packer(file, _manifest())
    for name in _read_names(path, packer.manifest):
        try:
            with store().open(name) as source:
                packer.add(PICTURES + name, source)
        except FileNotFoundError:
            if must_be_whole:
                raise VanishedError from None
            packer.manifest.missing.append(name)
    with path.open("rb") as source:
        packer.add(DATABASE, source)
    if with_key and settings.KEY_FILE:
        with settings.KEY_FILE.open("rb") as source:
            packer.add(KEY, source)
    packer.finish()
    return packer.manifest


def _manifest() -> Manifest:
    return Manifest(
        version=VERSION,
        made_at=datetime.now(UTC).isoformat(timespec="seconds"),
        database=connection.vendor,
        migrations=sorted(".".join(node) for node in applied("default")),
        key_mark=key_mark(settings.SECRET_KEY),
    )


def key_mark(key: str) -> str:
    """Sixteen hex digits by which two places know that they have the same key."""
    return salted_hmac("planning.backup.key", "", secret=key, algorithm="sha256").hexdigest()[:16]


def _read_names(path: Path, manifest: Manifest) -> list[str]:
    """The pictures that the copied database names; and how many weddings it has."""
    with database.at(path) as alias:
        apps = models_at(applied(alias))
        with suppress(LookupError):  # a database that has no tables yet
            weddings = apps.get_model("intake", "Wedding")._base_manager.using(alias)
            manifest.weddings = weddings.count()
        return sorted(named_files(apps, alias))


def tidy_up() -> None:
    """Take away what a kill left of earlier work, which may be as large as everything here."""
    take_left_behind(settings.DATA_DIR, f"{AT_WORK}*")
    take_left_behind(settings.DATA_DIR / "backups", f".*{TAIL}")


@contextmanager
def work_folder() -> Iterator[Path]:
    """A private folder that goes again."""
    tidy_up()
    made = tempfile.TemporaryDirectory(dir=settings.DATA_DIR, prefix=AT_WORK)
    with made as work, at_work_in(Path(work)):
        yield Path(work)
