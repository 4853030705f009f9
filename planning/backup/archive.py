"""The file itself: written, and checked to the last byte before anything of it is used."""

from __future__ import annotations

import hashlib
import json
import re
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any, BinaryIO

WHAT = "a backup of Foreday"
FORM = 1  # of the archive; raised when an older program could not read it any more
MANIFEST, DATABASE, KEY, PICTURES = "manifest.json", "database.sqlite3", "secret_key", "pictures/"
# Every name that may be in it: nothing that climbs out, no folder, no drive, no second spelling.
NAMES = re.compile(rf"{DATABASE}|{KEY}|{PICTURES}[\w-]{{1,40}}/[0-9a-f]{{32}}\.(jpg|pdf)", re.ASCII)
CHUNK = 1024 * 1024
MOST_MANIFEST = 64 * CHUNK
MOST_PICTURE = 20 * CHUNK  # bytes, as intake/store.py takes it; no key is longer either
# Everything that the reader of zip files says of one that is damaged.
READ_ERRORS = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, RuntimeError, ValueError)
PACKED = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}


class BackupError(Exception):
    """Why there is no backup, or nothing was put back, in one line."""


@dataclass
class Manifest:
    """`migrations` are those the database had; `members` are {name: [bytes, SHA-256 in hex]}.

    `key_mark` tells whether a place has the same secret key, and nothing about the key; `missing`
    are pictures of which the place itself had no file any more.
    """

    version: str
    made_at: str  # ISO 8601, UTC
    database: str
    migrations: list[str]
    key_mark: str
    weddings: int = 0
    missing: list[str] = field(default_factory=list)
    members: dict[str, list[Any]] = field(default_factory=dict)
    what: str = WHAT
    form: int = FORM


class Packer:
    """Puts members into a zip and writes down what they were."""

    def __init__(self, file: BinaryIO, manifest: Manifest) -> None:
        self.zip = zipfile.ZipFile(file, "w", allowZip64=True)
        self.manifest = manifest

    def add(self, name: str, source: BinaryIO) -> None:
        digest, size = hashlib.sha256(), 0
        with self.zip.open(_entry(name), "w", force_zip64=True) as member:
            while chunk := source.read(CHUNK):
                digest.update(chunk)
                size += len(chunk)
                member.write(chunk)
        self.manifest.members[name] = [size, digest.hexdigest()]

    def finish(self) -> None:
        text = json.dumps(asdict(self.manifest), indent=1)
        self.zip.writestr(_entry(MANIFEST), text)
        self.zip.close()


def _entry(name: str) -> zipfile.ZipInfo:
    # Without its own time, which a clock that is set wrong could put where zip knows none.
    entry = zipfile.ZipInfo(name)
    entry.external_attr = 0o600 << 16
    entry.compress_type = zipfile.ZIP_DEFLATED
    if name.startswith(PICTURES):  # they are compressed already
        entry.compress_type = zipfile.ZIP_STORED
    return entry


class Archive:
    """A backup that was opened; `check` reads all of it."""

    def __init__(self, file: zipfile.ZipFile, name: str) -> None:
        self.zip, self.name = file, name
        self.manifest = _manifest(file, name)

    def check(self) -> None:
        """Raises BackupError unless every member is there, and is what the manifest says."""
        names = [entry.filename for entry in self.zip.infolist()]
        for name in {*names, *self.manifest.members} - {MANIFEST}:
            if not NAMES.fullmatch(name):
                raise BackupError(f"{self.name}: it names a file that no backup has: {name!r}.")
        if sorted(names) != sorted([MANIFEST, *self.manifest.members]):
            raise damaged(self.name)
        plain = all(entry.compress_type in PACKED for entry in self.zip.infolist())
        if DATABASE not in self.manifest.members or not plain:
            raise damaged(self.name)
        for name, (size, _digest) in self.manifest.members.items():
            if name != DATABASE and size > MOST_PICTURE:
                raise damaged(self.name)
            for _chunk in self.chunks(name):
                pass

    def chunks(self, name: str) -> Iterator[bytes]:
        """What is in a member. Raises BackupError, at the end where its digest is another."""
        size, digest = self.manifest.members[name]
        found, left = hashlib.sha256(), size
        try:
            with self.zip.open(name) as member:
                while chunk := member.read(CHUNK):
                    found.update(chunk)
                    left -= len(chunk)
                    if left < 0:
                        break
                    yield chunk
        except READ_ERRORS as error:
            raise damaged(self.name) from error
        if left or found.hexdigest() != digest:
            raise damaged(self.name)

    @property
    def pictures(self) -> list[str]:
        """Their names in the store."""
        members = sorted(self.manifest.members)
        return [each.removeprefix(PICTURES) for each in members if each.startswith(PICTURES)]


@contextmanager
def opened(path: Path | BinaryIO, name: str) -> Iterator[Archive]:
    """A backup, read as far as its manifest. Raises BackupError."""
    try:
        if isinstance(path, Path) and path.is_fifo():  # to read one may take for ever
            raise damaged(name)
        with zipfile.ZipFile(path) as file:
            yield Archive(file, name)
    except READ_ERRORS as error:
        raise damaged(name) from error
    except OSError as error:
        raise BackupError(f"{name}: {error.strerror or error}.") from error


def damaged(name: str) -> BackupError:
    return BackupError(f"{name}: this is no backup of Foreday, or it is damaged or cut off.")


def _manifest(file: zipfile.ZipFile, name: str) -> Manifest:
    try:
        entry = file.getinfo(MANIFEST)
        if entry.file_size > MOST_MANIFEST or entry.compress_type not in PACKED:
            raise damaged(name)
        values = json.loads(file.read(MANIFEST))
        if values["what"] == WHAT and values["form"] != FORM and _is_line(values["version"]):
            raise BackupError(
                f"{name}: made by a newer Foreday ({values['version']}). Update this one first."
            )
        manifest = Manifest(**values)
        well = manifest.what == WHAT and all(_is_sum(each) for each in manifest.members.values())
        well &= all(map(_is_line, [manifest.version, *manifest.migrations, *manifest.missing]))
        well &= isinstance(manifest.weddings, int)
    except (KeyError, TypeError, AttributeError, *READ_ERRORS) as error:
        raise damaged(name) from error
    if not well:
        raise damaged(name)
    return manifest


def _is_line(value: Any) -> bool:
    """Something to be told on a terminal."""
    return isinstance(value, str) and value.isprintable()


def _is_sum(value: Any) -> bool:
    size, digest = value
    return isinstance(size, int) and size >= 0 and isinstance(digest, str)
