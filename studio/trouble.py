"""The disk or the database failed, and not the program: said so, with every word that was typed.

The page needs neither. What a form had sent stands in it and goes once more at the press of one
button; files must be chosen again, and passwords are not sent back.
"""

from __future__ import annotations

import errno
import sys
from typing import Any

from django.conf import settings
from django.db import DatabaseError, DataError, IntegrityError, connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _

from .disk import refusal
from .newer import is_newer

AGAIN = 30  # seconds until a program may ask once more
FULL, READ_ONLY, BUSY = "full", "read_only", "busy"
DAMAGED, WAITS, GONE, NEWER = "damaged", "waits", "gone", "newer"
# What PostgreSQL calls it (appendix A of its manual), whatever language it speaks; without a
# connection there is no such code. Then what either says in words, and Python of a disk.
CODES = {
    "25006": READ_ONLY,  # read_only_sql_transaction
    "40001": BUSY,  # serialization_failure
    "40P01": BUSY,  # deadlock_detected
    "42P01": WAITS,  # undefined_table
    "42703": WAITS,  # undefined_column
    "53100": FULL,  # disk_full
    "53300": BUSY,  # too_many_connections
    "55P03": BUSY,  # lock_not_available
    "XX001": DAMAGED,  # data_corrupted
    "XX002": DAMAGED,  # index_corrupted
}
SAYS = (
    ("database or disk is full", FULL),
    ("no space left", FULL),
    ("read-only", READ_ONLY),
    ("readonly", READ_ONLY),
    ("is locked", BUSY),
    ("too many", BUSY),  # clients, or connections for a role
    ("connection slots", BUSY),
    ("malformed", DAMAGED),
    ("not a database", DAMAGED),
    ("no such table", WAITS),
    ("no such column", WAITS),
    ("has no column", WAITS),
)
OF_DISK = {errno.ENOSPC: FULL, errno.EDQUOT: FULL, errno.EROFS: READ_ONLY, errno.EACCES: READ_ONLY}
# A value that does not fit or a row that is there already is a mistake of the program.
OURS = (IntegrityError, DataError)


def kind_of(error: BaseException | None) -> str:
    """What failed, as one of the words above; "" where it was the program."""
    if isinstance(error, OSError):
        return OF_DISK.get(error.errno or 0, GONE if error.errno == errno.EIO else "")
    if not isinstance(error, DatabaseError) or isinstance(error, OURS):
        return ""
    if code := CODES.get(getattr(error.__cause__, "sqlstate", None) or ""):
        return code
    words = str(error).casefold()
    found = next((kind for said, kind in SAYS if said in words), "")
    return found or (GONE if type(error).__name__ in {"OperationalError", "InternalError"} else "")


def in_words(kind: str) -> str:
    """One sentence for whoever sees it, who may have to pass it on."""
    return {
        FULL: _("The disk is full where the answers are kept."),
        READ_ONLY: _("The disk where the answers are kept takes nothing new."),
        BUSY: _("Too many were writing at the same moment."),
        DAMAGED: _("The file in which the answers are kept is damaged."),
        WAITS: _("This program was updated, and the answers wait to be moved along."),
        NEWER: _("A newer version of this program has been here, and this one must be updated."),
        GONE: _("The place where the answers are kept does not reply."),
    }[kind]


def trouble_page(request: HttpRequest) -> HttpResponse | None:
    """The answer to a request whose disk or database failed; None where it was something else."""
    error = sys.exc_info()[1]
    kind = NEWER if isinstance(error, DatabaseError) and is_newer() else kind_of(error)
    if kind == GONE and connection.vendor == "sqlite":  # which cannot say why it opens no file
        kind = kind_of(refusal(settings.DATA_DIR)) or GONE
    if not kind:
        return None
    page = {"why": in_words(kind), "passing": kind == BUSY, "damaged": kind == DAMAGED}
    page |= {"sent": sent_again(request), "couples": request.path.startswith("/q/")}
    answer = render(request, "not_kept.html", page, status=503)
    answer["Retry-After"] = str(AGAIN)
    answer["Cache-Control"] = "private, no-store"
    return answer


def sent_again(request: HttpRequest) -> list[tuple[str, str]]:
    """Every name and value of the form, for a page that sends it once more."""
    fields: Any = request.POST
    if any("password" in name for name in fields):
        return []
    return [(n, v) for n, values in fields.lists() for v in values if n != "csrfmiddlewaretoken"]
