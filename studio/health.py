"""`/health`: whether this place can serve, for whatever watches it. It tells a stranger no more.

200 and "ok", or 503 and "not ok"; why not is in the log (`foreday.health`).
"""

from __future__ import annotations

import logging
import tempfile
from functools import cache

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, connection
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

BLOCK = bytes(4096)  # a full disk may still give a name to an empty file
log = logging.getLogger("foreday.health")


@login_not_required
@require_safe
def health(request: HttpRequest) -> HttpResponse:
    troubles = [trouble for trouble in (of_database(), of_folder()) if trouble]
    for trouble in troubles:
        log.error("%s", trouble)
    well = not troubles
    content = "ok\n" if well else "not ok\n"
    return HttpResponse(content, "text/plain; charset=utf-8", status=200 if well else 503)


def of_database() -> str:
    """What is wrong with the database, or nothing."""
    try:
        waiting = wanted() - set(MigrationRecorder(connection).applied_migrations())
    except DatabaseError as error:
        return f"the database does not answer ({type(error).__name__})"
    return f"migrations that wait: {len(waiting)}" if waiting else ""


@cache
def wanted() -> frozenset[tuple[str, str]]:
    """The migrations of this code, which does not change while it runs."""
    return frozenset(MigrationLoader(None).disk_migrations)


def of_folder() -> str:
    """What is wrong with the data folder, or nothing."""
    try:
        with tempfile.TemporaryFile(dir=settings.DATA_DIR) as file:
            file.write(BLOCK)
    except OSError as error:
        return f"the data folder cannot be written ({error.strerror})"
    return ""
