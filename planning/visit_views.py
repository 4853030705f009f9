"""The page of the venue visit: when the sun stands as it will on the day."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from intake.answers import errors_of
from intake.models import Wedding
from studio.templatetags.clock import clock, long_date

from .brief import load_brief
from .compute.day import plan_wedding
from .visit_form import VisitForm, offer, take


@require_http_methods(["GET", "HEAD", "POST"])
def visit(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    plan = plan_wedding(load_brief(wedding))
    if request.method == "POST":
        at = take(wedding, plan, request.POST)
        if at is None:
            messages.error(request, _("That was none of the times offered. Nothing has changed."))
        else:
            when = {"date": long_date(at), "time": clock(at)}
            messages.success(request, _("The visit is kept: %(date)s, %(time)s.") % when)
        return redirect("visit", public_id)
    form = VisitForm(request.GET, plan)
    page = {
        "wedding": wedding,
        "screen": "light",
        "plan": plan,
        "form": form,
        "offer": offer(form, timezone.now()),
        "errors": [] if not request.GET else list(errors_of(form)),
    }
    return render(request, "planning/visit.html", page)
