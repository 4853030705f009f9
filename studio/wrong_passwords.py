"""How wrong passwords are counted (django-axes), where the clock was ahead for a while.

A lockout lasts from the time of the last one. That of a year to come would last until then.
"""

from __future__ import annotations

from typing import Any

from axes.handlers.database import AxesDatabaseHandler
from axes.helpers import get_cool_off
from axes.models import AccessAttempt
from django.db.models import QuerySet
from django.http import HttpRequest


class UpToNow(AxesDatabaseHandler):
    def get_user_attempts(
        self, request: HttpRequest, credentials: dict[str, Any] | None = None
    ) -> list[QuerySet[AccessAttempt]]:
        found = super().get_user_attempts(request, credentials)
        return [attempts.filter(attempt_time__lte=_latest(request)) for attempts in found]

    def clean_expired_user_attempts(
        self, request: HttpRequest | None = None, credentials: dict[str, Any] | None = None
    ) -> int:
        ahead = AccessAttempt.objects.filter(attempt_time__gt=_latest(request)).delete()[0]
        return super().clean_expired_user_attempts(request, credentials) + ahead


def _latest(request: HttpRequest | None) -> Any:
    """Another server's clock may be a little ahead of ours."""
    return request.axes_attempt_time + get_cool_off(request)
