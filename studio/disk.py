"""Files that are whole and on the disk or not there at all, and that only their owner reads."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

OWNERS = 0o600


@contextmanager
def written_whole(path: Path) -> Iterator[BinaryIO]:
    """A file to write, under another name until the block is done and all of it is on the disk.

    Whatever happens in between, `path` is as it was before. Raises OSError.
    """
    draft = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    try:
        with open(os.open(draft, os.O_RDWR | os.O_CREAT | os.O_EXCL, OWNERS), "w+b") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        os.replace(draft, path)
        to_disk(path.parent)
    except BaseException:
        with suppress(OSError):
            draft.unlink()
        raise


def to_disk(path: str | Path) -> None:
    """Wait until a file, or the names in a folder, would outlive a power cut."""
    if os.path.isdir(path) and os.name == "nt":  # Windows opens no folders
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
