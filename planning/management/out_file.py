"""The file that a command was told to write."""

from __future__ import annotations

import os
from pathlib import Path
from stat import S_IMODE

from django.core.management.base import CommandError

from studio.disk import written_whole

ANYBODYS = 0o666  # less what the umask takes away, as for any file of whoever runs the command


def write_out(out: Path, content: bytes) -> None:
    """Whole, or `out` stays as it was; CommandError (exit 2) where it cannot be.

    What is no file, such as a pipe, takes it as it comes.
    """
    try:
        if out.exists() and not out.is_file():
            out.write_bytes(content)
        else:
            mode = _mode_of(out) if out.exists() else ANYBODYS
            # Through a link to where the file is.
            with written_whole(Path(os.path.realpath(out)), mode) as file:
                file.write(content)
    except OSError as error:
        raise CommandError(
            f"Cannot write {out}: {error.strerror or error}.", returncode=2
        ) from error


def _mode_of(out: Path) -> int:
    """Who may read what is there. Raises OSError where it may not be written."""
    with out.open("ab") as there:
        return S_IMODE(os.fstat(there.fileno()).st_mode)
