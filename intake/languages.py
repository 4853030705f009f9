"""Which language is read where: the wedding's on the couple's pages, whatever the browser says."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.cache import patch_vary_headers
from django.utils.translation import activate, get_language, get_language_from_request, override

from .links import COOKIE, COOKIE_SECONDS, wedding_for_request
from .models import Wedding

CHOICE = f"{COOKIE}-language"


def language_of(wedding: Wedding) -> str:
    """The code of a wedding's language, or the studio's where it is not offered (any more)."""
    return wedding.language if is_offered(wedding.language) else settings.LANGUAGE_CODE


def is_offered(code: str) -> bool:
    return code in dict(settings.LANGUAGES)


@contextmanager
def in_language_of(wedding: Wedding) -> Iterator[None]:
    """Write what the couple will read, from wherever it is made: mails, summaries, papers.

    As `with in_language_of(wedding): ...`. Lazy words must be made to text inside.
    """
    with override(language_of(wedding)):
        yield


def language_for(request: HttpRequest, public_id: str) -> str:
    """What this browser chose for these pages, else the wedding's language.

    Where nothing opens it is the browser's own, so that a wrong link tells nothing of a wedding.
    """
    if is_offered(chosen := request.COOKIES.get(CHOICE, "")):
        return chosen
    try:
        return language_of(wedding_for_request(request, public_id))
    except Http404:
        return get_language_from_request(request)


def remember(response: HttpResponse, public_id: str, code: str) -> HttpResponse:
    """Keep a choice in this browser, for the pages of one wedding."""
    if is_offered(code):
        response.set_cookie(
            CHOICE,
            code,
            max_age=COOKIE_SECONDS,
            path=reverse("steps", args=[public_id]),
            secure=settings.ONLINE,
            httponly=True,
            samesite="Lax",
        )
    return response


class EachInTheirLanguage:
    """Middleware: couples read theirs, the photographer the studio's, everybody else their own."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with override(get_language_from_request(request)):
            response = self.get_response(request)
            response.headers.setdefault("Content-Language", get_language())
        patch_vary_headers(response, ("Accept-Language",))
        return response

    def process_view(self, request: HttpRequest, view: Callable, args: Any, kwargs: Any) -> None:
        """Before the check for forgery, whose refusal is read by couples too."""
        if getattr(view, "is_couples", False):
            activate(language_for(request, kwargs["public_id"]))
        else:
            activate(settings.LANGUAGE_CODE)
