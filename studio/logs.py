"""What the log says, and what it never says: a secret, a link, a couple's words.

Plain lines for a person at a terminal. With FOREDAY_LOG=json one JSON object a line, for a machine
that collects them: time (UTC), level, logger, message; for each request the name of its address
(never its path, which may hold a couple's link), status, milliseconds and the account's number.
Of an error both tell its kind and where it came from, and not its message, which may quote what was
typed: that is for whoever mends the program (DJANGO_DEBUG=1).
"""

from __future__ import annotations

import json
import logging
import re
import time
import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from django.conf import settings
from django.db import DatabaseError, OperationalError
from django.http import HttpRequest, HttpResponse

SECRET_PATHS = re.compile(r"/(q|password|calendar|sheet)/[^\s'\"]*")  # a test asks urls.py for them
NOWHERE = "no address of ours"
OTHER_NAME = (
    "Asked by a name that this place does not answer to. If it was yours: FOREDAY_HOME_HOSTS at "
    "home, DJANGO_ALLOWED_HOSTS online (studio/online.md)."
)
log = logging.getLogger("foreday.request")


class EachRequest:
    """Middleware, outside all others: one line for each request, but for a health that is well."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        began = time.perf_counter()
        response = self.get_response(request)
        name, status = name_of(request), response.status_code
        if log.isEnabledFor(logging.INFO) and (name, status) != ("health", 200):
            answered = {
                "address": name,
                "status": status,
                "ms": round((time.perf_counter() - began) * 1000, 1),
                "account": account_of(request),
            }
            log.info("answered %s with %d", name, status, extra={"answered": answered})
        return response


def name_of(request: HttpRequest) -> str:
    """The name that the address has in urls.py; a path never."""
    if match := getattr(request, "resolver_match", None):
        return match.url_name
    return "static" if request.path.startswith(settings.STATIC_URL) else NOWHERE


def account_of(request: HttpRequest) -> int | None:
    try:
        return request.user.pk
    except (AttributeError, DatabaseError):  # answered before anybody asked who it is
        return None


def message_of(record: logging.LogRecord) -> str:
    """A record's message, with the name of an address in the place of its path."""
    request, args = getattr(record, "request", None), record.args
    if isinstance(request, HttpRequest) and isinstance(args, tuple):
        args = tuple(name_of(request) if arg == request.path else arg for arg in args)
    text = str(record.msg)
    return without_links(text % args if args else text)


def without_links(text: str) -> str:
    return SECRET_PATHS.sub(r"/\1/...", text)


class AskedByAnotherName(logging.Filter):
    """Django's own words for it fill a screen, and name a setting that is not ours."""

    def filter(self, record: logging.LogRecord) -> bool:
        if record.name == "django.security.DisallowedHost":
            record.exc_info = record.exc_text = None
            record.levelno, record.levelname = logging.WARNING, "WARNING"
            record.msg, record.args = "%s", (OTHER_NAME,)
        return True


class PlainLines(logging.Formatter):
    """As Python writes them, without links."""

    def formatMessage(self, record: logging.LogRecord) -> str:  # noqa: N802 - Python's name
        return message_of(record)

    def formatException(self, ei: Any) -> str:  # noqa: N802 - Python's name
        if settings.DEBUG or ei[1] is None:
            return without_links(super().formatException(ei))
        said = told(ei[1])
        last = ": ".join(said[each] for each in ("error", "reason") if each in said)
        way = (f"  {each}" for each in said["came_through"])
        return "\n".join(["Traceback (most recent call last):", *way, last])


class JsonLines(logging.Formatter):
    def format(self, record: logging.LogRecord) -> str:
        at = datetime.fromtimestamp(record.created, UTC)
        said = {
            "time": at.isoformat(timespec="milliseconds").replace("+00:00", "Z"),
            "level": record.levelname,
            "logger": record.name,
            "message": message_of(record),
        }
        said |= getattr(record, "answered", {})
        error = record.exc_info[1] if record.exc_info else None
        return json.dumps(said | (told(error) if error else {}))


def told(error: BaseException) -> dict[str, Any]:
    """An error's kind and the lines it came through; its words only where no typing is in them."""
    lines = traceback.extract_tb(error.__traceback__)
    said: dict[str, Any] = {
        "error": type(error).__name__,
        "came_through": [f"{each.filename}:{each.lineno} {each.name}" for each in lines],
    }
    if isinstance(error, OSError) and error.strerror:
        said["reason"] = error.strerror
    elif isinstance(error, OperationalError):  # of the database as a whole, not of a row
        said["reason"] = str(error).partition("\n")[0]
    return said
