"""What leaves the app: the day pack and the calendar."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from intake.models import Wedding
from studio.models import Studio

from .agreed_words import pack_state, state_line
from .agreements import standing
from .brief import load_brief
from .compute.day import plan_wedding
from .compute.people import person_key
from .compute.planned import Plan
from .glyphs import undrawable_texts
from .meeting_page import meeting_page
from .meeting_sheet import Sheet
from .pdf import (
    PangoMissingError,
    agenda_pdf,
    calling_list_pdf,
    day_pack_pdf,
    second_photographer_pdf,
)
from .season_calendar import wedding_calendar
from .second_page import has_second


@require_safe
def papers(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    plan = plan_wedding(load_brief(wedding))
    page = {
        "wedding": wedding,
        "screen": "papers",
        "plan": plan,
        "undrawable": undrawable_texts(plan.brief),
        "second": has_second(plan),
        "state": state_line(standing(wedding, plan)),
    }
    return render(request, "planning/papers.html", page)


@require_safe
@cache_control(private=True, no_store=True)
def day_pack(request: HttpRequest, public_id: str) -> HttpResponse:
    def draw(plan: Plan, studio: Studio) -> bytes:
        return day_pack_pdf(plan, studio, pack_state(plan))

    return _pdf(request, public_id, draw, "day-pack")


@require_safe
@cache_control(private=True, no_store=True)
def agenda(request: HttpRequest, public_id: str) -> HttpResponse:
    """For the planning meeting: what is open, every answer, and room to write."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    page = meeting_page(wedding, Sheet(wedding))
    return _pdf(request, public_id, lambda plan, studio: agenda_pdf(page, studio), "agenda")


@require_safe
@cache_control(private=True, no_store=True)
def calling_list(request: HttpRequest, public_id: str) -> HttpResponse:
    return _pdf(request, public_id, calling_list_pdf, "calling-list")


@require_safe
@cache_control(private=True, no_store=True)
def second_photographer(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if not has_second(plan_wedding(load_brief(wedding))):
        messages.error(request, _("No block is the second photographer’s yet: settle one on Day."))
        return redirect("papers", public_id)
    return _pdf(request, public_id, second_photographer_pdf, "second-photographer")


def _pdf(
    request: HttpRequest, public_id: str, draw: Callable[[Plan, Studio], bytes], name: str
) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    try:
        pdf = draw(plan_wedding(load_brief(wedding)), Studio.get())
    except PangoMissingError as missing:
        messages.error(request, str(missing))
        return redirect("papers", public_id)
    return _file(pdf, "application/pdf", f"{_file_name(wedding)}-{name}.pdf")


@require_safe
@cache_control(private=True, no_store=True)
def calendar(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    ics, _count = wedding_calendar(wedding, kept=request.method == "GET")
    return _file(ics, "text/calendar; charset=utf-8", f"{_file_name(wedding)}.ics")


def _file(content: bytes, kind: str, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type=kind)
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def _file_name(wedding: Wedding) -> str:
    dates = wedding.dates
    day = f"{dates[0]:%Y-%m-%d}-" if dates else ""
    return f"{day}{slugify(person_key(wedding.names)) or wedding.public_id}"
