"""The season's calendar: its file, its secret address, and the page that tells of both."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.http import http_date, quote_etag
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods, require_safe

from intake.guessing import count_miss, tries_too_often
from studio.models import Studio

from .calendar_links import (
    address_of,
    address_path,
    changed_at,
    keep,
    make_address,
    opened,
    revoke_address,
)
from .reach import reach_of, reached_by
from .season_calendar import season_calendar

KIND = "text/calendar; charset=utf-8"


@require_http_methods(["GET", "HEAD", "POST"])
@cache_control(private=True, no_store=True)
def subscription(request: HttpRequest) -> HttpResponse:
    """The photographer's own address, made and revoked by two buttons."""
    if request.method == "POST":
        if request.POST.get("do") == "revoke":
            revoke_address(request.user)
            messages.success(request, _("The address gives nothing any more."))
        else:
            make_address(request.user)
            messages.success(request, _("Here is your new address."))
        return redirect("subscription")
    address = address_of(request.user)
    url = reached_by(request) + address_path(address) if address else ""
    page = {
        "screen": "calendar",
        "address": address,
        "fetched": _on_our_clock(address.changed_at) if address and address.changed_at else None,
        "url": url,
        "reach": reach_of(url),
    }
    return render(request, "planning/calendar.html", page)


@require_safe
@cache_control(private=True, no_store=True)
def season_download(request: HttpRequest) -> HttpResponse:
    return _file(season_calendar(timezone.now(), kept=request.method == "GET"))


@login_not_required
@require_safe
@cache_control(private=True, no_store=True)
def subscribed(request: HttpRequest, key: str, token: str) -> HttpResponseBase:
    """What a calendar's reader fetches, without a sign-in.

    No cache on the way may keep it (no-store); the reader itself, which keeps it anyhow, sends
    back what marks its copy, and hears "not modified" where nothing has changed.
    """
    if tries_too_often(request):
        return render(request, "planning/no_calendar.html", {"wait": True}, status=429)
    address = opened(key, token)
    if address is None:
        count_miss(request)
        return render(request, "planning/no_calendar.html", status=404)
    is_given = request.method == "GET"
    content = season_calendar(timezone.now(), kept=is_given)
    before = address.digest
    changed = changed_at(address, content, timezone.now())
    if is_given and address.digest != before:
        keep(address)
    response, mark = _file(content), quote_etag(address.digest[:32])
    response["ETag"], response["Last-Modified"] = mark, http_date(changed.timestamp())
    return get_conditional_response(request, mark, int(changed.timestamp()), response)


def _on_our_clock(at: datetime) -> datetime:
    return at.astimezone(ZoneInfo(Studio.get().zone))


def _file(content: bytes) -> HttpResponse:
    response = HttpResponse(content, content_type=KIND)
    response["Content-Disposition"] = 'attachment; filename="season.ics"'
    return response
