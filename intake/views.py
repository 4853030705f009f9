"""What the couple see: their list of steps, and everything read through."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial, wraps
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from .guessing import count_miss, tries_too_often
from .languages import remember
from .links import give_cookie, wedding_for_request, wedding_for_token
from .models import Wedding
from .progress import SETTLED, progress
from .read_through import read_steps
from .sizes import kept_sizes

Page = Callable[..., HttpResponse]


def by_link(view: Page) -> Page:
    """Open to whoever holds a link: never stored, and a calm page where nothing opens."""

    @wraps(view)
    def opened(request: HttpRequest, **kwargs: Any) -> HttpResponse:
        try:
            return view(request, **kwargs)
        except Http404:
            return render(request, "intake/wrong_link.html", status=404)

    return login_not_required(cache_control(private=True, no_store=True)(opened))


def couples_page(view: Page) -> Page:
    page = by_link(view)
    page.is_couples = True  # read in their language: languages.py
    return page


def trade(
    request: HttpRequest,
    token: str,
    to: str,
    *,
    opened: Callable[[str], Any],
    known: Callable[[], Any],
    give: Callable[[HttpResponse, Any], HttpResponse],
) -> HttpResponse:
    """Trade a link for a cookie and go on to an address that holds no secret.

    `opened` is what a token opens, `known` what the browser's cookie opens, and both raise Http404
    where that is nothing; `give` puts the cookie on. Whoever has tried too many is not told
    whether this one would have opened, and who is in already needs no whole link.
    """
    guessing = tries_too_often(request)
    try:
        return give(redirect(to), opened("" if guessing else token))
    except Http404:
        pass
    try:
        known()
    except Http404:
        count_miss(request)
        if guessing:
            return render(request, "intake/wrong_link.html", {"wait": True}, status=429)
        raise
    return redirect(to)


@couples_page
@require_safe
def open_link(request: HttpRequest, public_id: str, token: str) -> HttpResponse:
    return trade(
        request,
        token,
        reverse("steps", args=[public_id]),
        opened=partial(wedding_for_token, public_id),
        known=partial(wedding_for_request, request, public_id),
        give=partial(give_cookie, request),
    )


@couples_page
@require_safe
def steps(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    page = {"wedding": wedding, "progress": progress(wedding), "sizes": kept_sizes(wedding)}
    return render(request, "intake/steps.html", page)


@couples_page
@require_POST
def language(request: HttpRequest, public_id: str) -> HttpResponse:
    """Another language for the couple's pages in this browser; the wedding's stays."""
    wedding_for_request(request, public_id)
    home, back = reverse("steps", args=[public_id]), request.POST.get("back", "")
    response = redirect(back if back.startswith(home) else home)
    return remember(response, public_id, request.POST.get("language", ""))


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def read_through(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    marks = progress(wedding)
    drafts = [each.step for each in marks if each.mark == "draft"]
    if request.method == "POST" and not drafts:
        Wedding.objects.filter(pk=wedding.pk).update(sent_at=timezone.now())
        messages.success(request, _("Sent. Thank you, we look forward to reading it."))
        return redirect(reverse("steps", args=[public_id]))
    page = {
        "wedding": wedding,
        "steps": read_steps(wedding),
        "progress": marks,
        "drafts": drafts,
        "refused": request.method == "POST",
        "not_ready": any(each.mark not in SETTLED for each in marks),
    }
    return render(request, "intake/read_through.html", page)
