"""What every ready list rests on: the studio's insurance, and lines of its own."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from intake.models import Wedding

from .countries import names
from .insurance_form import POLICIES, PolicyRows, WantedForm
from .ready_item_form import READY_ITEMS, ReadyItemRows
from .row_page import row_page


@require_http_methods(["GET", "HEAD", "POST"])
def insurance(request: HttpRequest) -> HttpResponse:
    page = row_page(request, POLICIES, rows=PolicyRows, form_of=WantedForm)
    if page.kept:
        messages.success(request, _("Kept."))
        return redirect("insurance")
    context = page.context() | {"countries": names(), "screen": "insurance"}
    context["today"] = timezone.localdate()
    return render(request, "planning/insurance.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def ready_items(request: HttpRequest) -> HttpResponse:
    return _items(request, None)


@require_http_methods(["GET", "HEAD", "POST"])
def wedding_ready_items(request: HttpRequest, public_id: str) -> HttpResponse:
    return _items(request, get_object_or_404(Wedding, public_id=public_id))


def _items(request: HttpRequest, wedding: Wedding | None) -> HttpResponse:
    page = row_page(request, READY_ITEMS, wedding, ReadyItemRows)
    if page.kept:
        messages.success(request, _("Kept."))
        return redirect("ready", wedding.public_id) if wedding else redirect("ready_items")
    context = page.context() | {"wedding": wedding, "screen": "ready"}
    return render(request, "planning/ready_items.html", context)
