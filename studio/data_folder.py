"""The folder of the database, the pictures and the key: its owner's, and nobody else's to read.

Read by the settings, so that a folder that cannot be used is told before anything is served.
"""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured
from django.core.management.utils import get_random_secret_key

OWNERS_FOLDER, OWNERS_FILE = 0o700, 0o600
SHORTEST_KEY = 50  # characters, as Django's check of a deployment asks (security.W009)


def data_folder(path: Path) -> Path:
    path = path.resolve()
    try:
        path.mkdir(mode=OWNERS_FOLDER, parents=True, exist_ok=True)
    except OSError as error:
        raise unusable(path, error) from error
    return path


def kept_secret_key(path: Path) -> str:
    """The key made on the first run. Losing it ends every sign-in and every couple's link."""
    if not path.exists():
        # Written aside and linked into place, so that no second process reads half a key.
        draft = path.with_name(f"{path.name}.{os.getpid()}")
        try:
            draft.touch(mode=OWNERS_FILE)
            draft.write_text(get_random_secret_key())
            with contextlib.suppress(FileExistsError):
                os.link(draft, path)
            draft.unlink()
        except OSError as error:
            raise unusable(path.parent, error) from error
    key = path.read_bytes()
    if not is_key(key):
        raise ImproperlyConfigured(
            f"{path} holds no secret key any more. Put back a backup; or move the file away, and "
            "Foreday makes a new key: everybody signs in anew, and every couple needs a new link."
        )
    return key.decode()


def is_key(content: bytes) -> bool:
    """Printable ASCII, and as long as nobody guesses: those made here have fifty characters."""
    return (
        len(content) >= SHORTEST_KEY
        and content.isascii()
        and content.decode().rstrip().isprintable()
    )


def make_private(name: str) -> None:
    """Make SQLite's file before SQLite does, which would let others of this machine read it.

    What SQLite puts beside it later has the same mode as the file itself.
    """
    if name == ":memory:":
        return
    with contextlib.suppress(OSError):  # the same is told when the database is opened
        Path(name).touch(mode=OWNERS_FILE)


def unusable(folder: Path, error: OSError) -> ImproperlyConfigured:
    return ImproperlyConfigured(f"FOREDAY_DATA: {folder}: {error.strerror}.")
