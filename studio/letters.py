"""What a request is written in: UTF-8, and no letter that a database cannot hold.

No page of ours asks for other letters, and what a header names may be none at all: Python finds a
codec "hex" and then cannot read with it. A NUL in a text box is told beside it by its form; in the
value of a button or a key nobody typed it, and PostgreSQL refuses to look for it.

Django reads what kind of body it is before it asks anything of ours: a long header full of `;` in
quotes takes Python minutes, and one that it cannot read gets no page. `readable` looks before it.
"""

from __future__ import annotations

import codecs
from collections.abc import Callable, Iterable
from typing import Any

from django.conf import settings
from django.core.exceptions import BadRequest
from django.db import DataError
from django.http import HttpRequest, HttpResponse
from django.utils.http import parse_header_parameters
from django.views.defaults import bad_request

LONGEST = 300  # characters of Content-Type; the longest part of it has 70 (RFC 2046, 5.1.1)
UNREADABLE = "text/plain; charset=latin-1"  # which ReadableLetters refuses

App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]


def readable(app: App) -> App:
    """A WSGI application that hears of no kind of body which nobody can read."""

    def answer(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        if not _is_kind(environ.get("CONTENT_TYPE", "")):
            environ["CONTENT_TYPE"] = UNREADABLE
        return app(environ, start_response)

    return answer


def _is_kind(text: str) -> bool:
    if len(text) > LONGEST:
        return False
    try:
        parse_header_parameters(text)
    except ValueError:
        return False
    return True


class ReadableLetters:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Raises BadRequest for a body that says it is written in other letters, and for a sign-in
        that the database cannot even look for."""
        if "\0" in request.COOKIES.get(settings.SESSION_COOKIE_NAME, ""):
            raise BadRequest("a sign-in with a NUL in it")
        if request.encoding and codecs.lookup(request.encoding).name != "utf-8":
            raise BadRequest("a form in other letters than UTF-8")
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, DataError) and "NUL" in str(exception):
            return bad_request(request, exception)
        return None
