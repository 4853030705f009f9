"""A sheet on somebody else's phone, behind a secret link; made and revoked on the page Papers."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake.models import Wedding
from intake.views import by_link, trade

from .paper.sheets import BY_KEY
from .paper.subject import subject_of
from .phone_page import phone_page, seen_at
from .sheet_links import (
    give_cookie,
    is_over,
    last_day,
    make_link,
    opened,
    opened_by_cookie,
    revoke_link,
)
from .sheet_offers import sheet_offers


@by_link
@require_safe
def open_sheet(request: HttpRequest, key: str, token: str) -> HttpResponse:
    return trade(
        request,
        token,
        reverse("sheet", args=[key]),
        opened=lambda token: opened(key, token)[0],
        known=partial(opened_by_cookie, request, key),
        give=give_cookie,
    )


@by_link
@require_safe
def sheet(request: HttpRequest, key: str) -> HttpResponse:
    """Not kept by the browser: a link that is revoked leaves nothing behind but an open page."""
    link, reader = opened_by_cookie(request, key)
    subject = subject_of(link.wedding)
    page = {
        "sheet": BY_KEY[link.sheet],
        "reader": reader,
        "names": subject.brief.names,
        "zone": subject.brief.zone,
        "phone": phone_page(subject, link.sheet, reader),
        "mark": subject.mark,
        "at": seen_at(subject),
        "last": last_day(link.wedding),
    }
    return render(request, "phone/sheet.html", page)


@require_POST
def phone_links(request: HttpRequest, public_id: str) -> HttpResponse:
    """`do` is "make" or "revoke", with the sheet and the helper's key: "make:calling-list:h1"."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    do, _colon, whose = request.POST.get("do", "").partition(":")
    offered = {each.value: each for each in sheet_offers(subject_of(wedding))}
    if whose not in offered or do not in ("make", "revoke"):
        messages.error(request, _("That sheet is not offered any more. Nothing was changed."))
    elif do == "revoke":
        revoke_link(wedding, *whose.split(":"), by=request.user.pk)
        messages.success(request, _("That link opens nothing any more."))
    elif is_over(wedding):
        messages.error(request, _("No link can be made: the wedding has no date, or it is over."))
    else:
        make_link(wedding, *whose.split(":"), by=request.user.pk)
        messages.success(request, _("There is a new link. An old one opens nothing any more."))
    return redirect(f"{reverse('papers', args=[public_id])}#on-a-phone")
