"""What surrounds a command: a terminal, a pipe, a disk. No traceback, whatever becomes of them."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from django.conf import settings
from django.core.exceptions import ImproperlyConfigured
from django.db import DatabaseError

from planning.management.one_line import one_line
from studio.disk import refusal

PIPE_CLOSED = 141  # as for every program whose reader has read enough, such as `head`


@contextmanager
def told_in_one_line() -> Iterator[None]:
    """Around a whole command. What stops it is told, and exits with 2."""
    _make_writable()
    try:
        try:
            yield
        finally:
            sys.stdout.flush()
    except BrokenPipeError:
        _forget_what_is_unwritten()
        sys.exit(PIPE_CLOSED)
    except (ImproperlyConfigured, ImportError) as error:
        _leave(str(error))
    except DatabaseError as error:
        why = refusal(settings.DATA_DIR)  # SQLite cannot say why it opens no file
        _leave(f"{error} (the data folder: {why.strerror})" if why else str(error))
    except OSError as error:
        where = f"{error.filename}: " if error.filename else ""
        _leave(f"{where}{error.strerror or error}.")


def _make_writable() -> None:
    """Also where a terminal cannot write Łukasz, and where there is none: `>&-`."""
    for name in ("stdout", "stderr"):
        if (stream := getattr(sys, name)) is None:
            nowhere = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - until the end
            setattr(sys, name, nowhere)
        else:
            stream.reconfigure(errors="backslashreplace")


def _leave(why: str) -> None:
    with suppress(OSError):  # nor can that be told
        print(one_line(why), file=sys.stderr)
    _forget_what_is_unwritten()
    sys.exit(2)


def _forget_what_is_unwritten() -> None:
    """Or Python tries once more at the end, and complains."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, stream.fileno())
            os.close(nowhere)
