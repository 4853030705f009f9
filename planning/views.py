"""The photographer's pages: fetch, plan, render."""

from __future__ import annotations

from typing import Any

import segno
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods, require_safe

from intake.answers import errors_of
from intake.links import link_path, make_new_link
from intake.models import Wedding
from intake.progress import progress
from intake.read_through import read_steps
from intake.rows import quiet, quiet_rows, rows_of, typed, with_one_more
from studio.in_turn import in_turn
from studio.models import Studio
from studio.versions import VERSION

from .brief import load_brief
from .compute.day import plan_wedding
from .compute.planned import Plan
from .due_page import clashes_now
from .forms import BOOKED_DAYS, ZONES, BookingForm, StudioForm, save_booking
from .light_page import light_of
from .mail import mail_draft
from .map_form import MapForm
from .people_views import their_weddings
from .reach import reach_of, reached_by
from .retention import reminders
from .season import season_page
from .season_search import SearchForm
from .taken_out_page import act, kept_of_taken_out


@require_safe
def season(request: HttpRequest) -> HttpResponse:
    if not request.plans_weddings:
        return their_weddings(request)
    past, search = "past" in request.GET, SearchForm(request.GET)
    page = season_page(timezone.now(), request.GET.get("page"), past, search.words)
    first = page.number == 1 and not past and not search.words
    context = {"page": page, "past": past}
    if first:
        studio = Studio.get()
        context |= {"clashes": clashes_now(studio)} | reminders(studio)
    return render(request, "planning/season.html", context | {"search": search, "screen": "season"})


@require_http_methods(["GET", "HEAD", "POST"])
def studio(request: HttpRequest) -> HttpResponse:
    form = StudioForm(request.POST or None, instance=Studio.get())
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Kept."))
        return redirect("season")
    page = {"form": form, "zones": ZONES, "screen": "studio", "errors": list(errors_of(form))}
    return render(request, "planning/studio.html", page | {"version": VERSION})


@require_http_methods(["GET", "HEAD", "POST"])
@in_turn()  # a second click waits for the first, and changes the wedding that it made
def new_wedding(request: HttpRequest) -> HttpResponse:
    key = request.POST.get("days-0-key", "")
    made = Wedding.objects.filter(days__key=key).first() if key.isalnum() else None
    return _book(request, made or Wedding(), "planning/new_wedding.html")


@require_http_methods(["GET", "HEAD", "POST"])
def booking(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    return _book(request, wedding, "planning/booking.html")


def _book(request: HttpRequest, wedding: Wedding, template: str) -> HttpResponse:
    is_new = wedding.pk is None
    data = typed(request.POST, ["days"]) if request.method == "POST" else None
    adding = data is not None and data.get("do") == "add-days"
    data = with_one_more(data, "days") if adding else data
    form, days = BookingForm(data, wedding=wedding), rows_of(BOOKED_DAYS, wedding, data)
    if adding:
        quiet(form), quiet_rows(days)
    errors = [*errors_of(form), *errors_of(days)] if data else []
    if data and not adding and not errors:
        save_booking(form, days)
        messages.success(request, _("Kept."))
        return redirect("link" if is_new else "answers", wedding.public_id)
    page = {"form": form, "days": days, "part": BOOKED_DAYS, "wedding": wedding, "zones": ZONES}
    return render(request, template, page | {"errors": errors, "screen": "booking"})


@require_http_methods(["GET", "HEAD", "POST"])
@cache_control(private=True, no_store=True)
def link(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if request.method == "POST":
        make_new_link(wedding)
        messages.success(request, _("There is a new link. The old one opens nothing any more."))
        return redirect("link", public_id)
    url = reached_by(request) + link_path(wedding)
    qr = segno.make(url, error="m").svg_data_uri(scale=4, border=2)
    return _page(
        request,
        wedding,
        "link",
        reach=reach_of(url),
        url=url,
        qr=qr,
        mail=mail_draft(wedding, url, request),
    )


@require_http_methods(["GET", "HEAD", "POST"])
def answers(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if request.method == "POST":
        messages.success(request, act(wedding, request.POST.get("do", "")))
        return redirect("answers", public_id)
    return _page(
        request,
        wedding,
        "answers",
        plan=_plan(wedding),
        steps=read_steps(wedding),
        progress=progress(wedding),
        taken_out=kept_of_taken_out(wedding),
    )


@require_safe
def light(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    plan = _plan(wedding)
    return _page(request, wedding, "light", plan=plan, days=light_of(plan))


@require_http_methods(["GET", "HEAD", "POST"])
def on_the_map(request: HttpRequest, public_id: str) -> HttpResponse:
    """Where the places are on the ground, and how long the drives between them take."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    form = MapForm(wedding, _plan(wedding), request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, form.kept())
        return redirect("map", public_id)
    return _page(request, wedding, "map", form=form, errors=form.errors())


def _plan(wedding: Wedding) -> Plan:
    return plan_wedding(load_brief(wedding))


def _page(request: HttpRequest, wedding: Wedding, name: str, **context: Any) -> HttpResponse:
    page = {"wedding": wedding, "screen": name} | context
    return render(request, f"planning/{name}.html", page)
