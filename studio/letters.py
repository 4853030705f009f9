"""What a request is written in: UTF-8, and no letter that a database cannot hold.

No page of ours asks for other letters, and what a header names may be none at all: Python finds a
codec "hex" and then cannot read with it. A NUL in a text box is told beside it by its form; in the
value of a button or a key nobody typed it, and PostgreSQL refuses to look for it.
"""

from __future__ import annotations

import codecs
from collections.abc import Callable

from django.core.exceptions import BadRequest
from django.db import DataError
from django.http import HttpRequest, HttpResponse
from django.views.defaults import bad_request


class ReadableLetters:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Raises BadRequest where a body says that it is written in other letters."""
        if request.encoding and codecs.lookup(request.encoding).name != "utf-8":
            raise BadRequest("a form in other letters than UTF-8")
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, DataError) and "NUL" in str(exception):
            return bad_request(request, exception)
        return None
