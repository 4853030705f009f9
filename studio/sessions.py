"""How long a sign-in lasts, and that no signed-in page stays in a browser's store unasked.

Idle for SESSION_COOKIE_AGE (7 days) or 30 days old, whichever comes first: long enough for the
weeks around a wedding, when the phone must open the day without a password at hand; short enough
for a laptop that was left somewhere (OWASP ASVS 5.0, 7.3.1 and 7.3.2).
"""

from __future__ import annotations

import time
from collections.abc import Callable

from axes.helpers import get_cool_off
from axes.models import AccessAttempt
from django.contrib.auth import SESSION_KEY, get_user_model, logout
from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.messages.storage.session import SessionStorage
from django.contrib.sessions.models import Session
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import patch_cache_control

from .logs import name_of

LONGEST = 30 * 24 * 3600  # seconds from the sign-in
SAID = SessionStorage.session_key  # what was too long for a cookie
NOTED = 3600  # seconds between two notes of "still here", so that reading writes seldom


class EndInTime:
    """Ends old sign-ins, moves the end of used ones, and marks every answer "not to be kept"."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if request.user.is_authenticated:
            note(request)
        response = self.get_response(request)
        if not response.has_header("Cache-Control"):
            patch_cache_control(response, private=True, no_store=True)
        # The page that a phone was asked to keep goes, too; not where another site only asked for
        # this address, whose refusal would take the day away from somebody without a network.
        if name_of(request) == "logout" and response.status_code == 302:
            response["Clear-Site-Data"] = '"cache"'
        return response


def note(request: HttpRequest) -> None:
    """A clock set back begins the thirty days anew; one far ahead ends the sign-in."""
    now, session = time.time(), request.session
    if session.setdefault("since", now) > now + NOTED:  # made while the clock was ahead
        session["since"] = now
    if now - session["since"] > LONGEST:
        logout(request)
    elif abs(now - session.get("seen", 0)) > NOTED:
        session["seen"] = now  # a changed session is saved, and its end with it


def end_sessions(user: AbstractBaseUser) -> None:
    """On every browser. A session says whose it is only inside; a studio has few of them."""
    key = user._meta.pk.value_to_string(user)
    for session in Session.objects.iterator():
        if session.get_decoded().get(SESSION_KEY) == key:
            session.delete()


def forget_said() -> None:
    """Take out what was said to somebody in passing and has not been read, which may name guests,
    and every sign-in that has ended. One that goes on meanwhile is left as it is then."""
    Session.objects.filter(expire_date__lt=timezone.now()).delete()
    for session in Session.objects.iterator():
        noted = session.get_decoded()
        if noted.pop(SAID, None):
            now = Session.objects.filter(pk=session.pk, session_data=session.session_data)
            now.update(session_data=Session.objects.encode(noted))


def forget_old() -> None:
    """Take away sign-ins that are over, and wrong ones that count no more: a name that was tried
    may be a password typed into the wrong box, and whatever lies here goes into every backup."""
    now = timezone.now()
    Session.objects.filter(expire_date__lt=now).delete()
    AccessAttempt.objects.filter(attempt_time__lt=now - get_cool_off()).delete()


def who(name: str | None, address: str, *_browser_and_page: object) -> str:
    """Who tried to sign in, for the log. A name that is no account may be a mistyped password."""
    known = get_user_model().objects.filter(username=name or "").exists()
    return f"account {name} from {address}" if known else f"no account we know, from {address}"
