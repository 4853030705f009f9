"""Files that are whole and on the disk or not there at all, and that only their owner reads.

Whatever is only for the time of the work is locked by whoever works at it. The system lets go of
the lock when that process is gone, however it went; so what a kill left behind is known at once,
whatever the clock says, and is taken away by the next that works there.
"""

from __future__ import annotations

import glob
import os
import secrets
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

try:
    import fcntl
except ImportError:  # Windows, where what is left behind stays until somebody removes it
    fcntl = None

OWNERS = 0o600
TAIL = f".{'[0-9a-f]' * 8}"  # of a file's name while it is being written
BLOCK = bytes(4096)  # a full disk may still give a name to an empty file


@contextmanager
def written_whole(path: Path, mode: int = OWNERS) -> Iterator[BinaryIO]:
    """A file to write, under another name until the block is done and all of it is on the disk.

    Whatever happens in between, `path` is as it was before. Raises OSError.
    """
    take_left_behind(path.parent, f".{glob.escape(path.name)}{TAIL}")
    draft = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    try:
        with open(os.open(draft, os.O_RDWR | os.O_CREAT | os.O_EXCL, mode), "w+b") as file:
            lock(file.fileno())
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


def lock(handle: int) -> bool:
    """Whether it is ours now, for as long as the handle is open; on some disks never."""
    if fcntl is None:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


@contextmanager
def at_work_in(folder: Path) -> Iterator[None]:
    """While the block lasts nobody takes the folder for one that was left behind."""
    handle = None if fcntl is None else os.open(folder, os.O_RDONLY)
    try:
        if handle is not None:
            lock(handle)
        yield
    finally:
        if handle is not None:
            os.close(handle)


def take_left_behind(folder: Path, pattern: str) -> None:
    """Take away files and folders of such names at which nobody works any more."""
    for each in folder.glob(pattern):
        with suppress(OSError):
            handle = os.open(each, os.O_RDONLY if each.is_dir() else os.O_RDWR)
            try:
                if lock(handle):
                    shutil.rmtree(each) if each.is_dir() else each.unlink()
            finally:
                os.close(handle)


def refusal(folder: str | Path) -> OSError | None:
    """Why nothing can be written into a folder; None where it can."""
    try:
        with tempfile.TemporaryFile(dir=folder) as file:
            file.write(BLOCK)
    except OSError as error:
        return error
    return None
