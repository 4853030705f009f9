"""A restore that was begun here and has not come to its end: known after a kill, too.

The same command, given again, then goes on where the other was cut off, into a place that was empty
before it. Only between a database and the key that belongs to it nobody may be served: links
would open nothing.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from django.conf import settings
from django.core.management import CommandError

from studio.disk import written_whole

from .archive import MANIFEST, Archive


def _file() -> Path:
    return settings.DATA_DIR / "restoring"


def begin(archive: Archive, key_waits: bool = False) -> None:
    """Raises OSError."""
    values = {"backup": _mark(archive), "file": archive.name, "key_waits": key_waits}
    with written_whole(_file()) as file:
        file.write(json.dumps(values).encode())


def end() -> None:
    _file().unlink(missing_ok=True)


def is_begun(archive: Archive) -> bool:
    """Whether this very backup was being put here."""
    return _values().get("backup") == _mark(archive)


def must_be_through() -> None:
    """Raises CommandError where the database is here and its key is not."""
    values = _values()
    if values.get("key_waits"):
        raise CommandError(
            f"A restore was cut off here. Run it again with the same backup ({values['file']}). "
            f"To go on with what is here instead, delete {_file()}.",
            returncode=2,
        )


def _mark(archive: Archive) -> str:
    return hashlib.sha256(archive.zip.read(MANIFEST)).hexdigest()


def _values() -> dict[str, str | bool]:
    try:
        return json.loads(_file().read_text())
    except FileNotFoundError:
        return {}
