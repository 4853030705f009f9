"""`/health`: whether this place can serve, for whatever watches it. It tells a stranger no more.

200 and "ok", or 503 and "not ok"; why not is in the log (`foreday.health`).
"""

from __future__ import annotations

import logging

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from .disk import refusal
from .newer import applied, newer, wanted

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
        here = applied()
    except DatabaseError as error:
        return f"the database does not answer ({type(error).__name__})"
    if newer(here):
        return f"migrations of a newer version: {newer(here)}"
    waiting = wanted() - here
    return f"migrations that wait: {len(waiting)}" if waiting else ""


def of_folder() -> str:
    """What is wrong with the data folder, or nothing."""
    error = refusal(settings.DATA_DIR)
    return f"the data folder cannot be written ({error.strerror})" if error else ""
