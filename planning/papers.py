"""What leaves the app: papers and the calendar."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.text import slugify
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from intake.models import Wedding

from .agreed_words import state_line
from .agreements import standing
from .compute.people import person_key
from .glyphs import undrawable_texts
from .paper.refusal import CANNOT, refusal
from .paper.sheets import BY_KEY, Sheet
from .paper.subject import Subject, subject_of
from .paper_form import PrintForm, offers
from .pdf import paper_pdf
from .reach import reach_of, reached_by
from .season_calendar import wedding_calendar
from .sheet_links import DAYS_AFTER, is_over, last_day
from .sheet_offers import sheet_offers


@require_safe
@cache_control(private=True, no_store=True)
def papers(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    subject = subject_of(wedding)
    page = {
        "wedding": wedding,
        "screen": "papers",
        "form": PrintForm.shown(request.GET),
        "offers": offers(subject),
        "undrawable": undrawable_texts(subject.brief),
        "state": state_line(standing(wedding, subject.plan)),
        "mark": subject.mark,
    }
    return render(request, "planning/papers.html", page | _on_a_phone(request, subject))


def _on_a_phone(request: HttpRequest, subject: Subject) -> dict[str, Any]:
    """The links to one reader's sheet, and until when they hold."""
    site, wedding = reached_by(request), subject.wedding
    return {
        "links": [(each, site + each.path if each.path else "") for each in sheet_offers(subject)],
        "reach": reach_of(site),
        "last": last_day(wedding),
        "days_after": DAYS_AFTER,
        "over": is_over(wedding),
    }


@require_safe
@cache_control(private=True, no_store=True)
def paper(request: HttpRequest, public_id: str, key: str) -> HttpResponse:
    """One paper as a PDF; what cannot be printed leads back to Papers, with the choices kept."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    sheet = BY_KEY.get(key)
    if sheet is None:
        raise Http404
    subject = subject_of(wedding)
    form = PrintForm(request.GET, subject=subject, sheet=sheet)
    if not form.is_valid():
        return _back(request, public_id, [each for said in form.errors.values() for each in said])
    try:
        pdf = paper_pdf(subject, sheet, form.reader, form.printing)
    except CANNOT as error:
        return _back(request, public_id, [refusal(error)])
    return _file(pdf, "application/pdf", f"{_file_name(wedding)}-{_named(sheet, form)}.pdf")


def _back(request: HttpRequest, public_id: str, said: list[str]) -> HttpResponse:
    for each in said:
        messages.error(request, each)
    if not request.plans_weddings:  # a second photographer, who has no Papers
        return redirect("season")
    kept = request.GET.urlencode()
    return redirect(f"{reverse('papers', args=[public_id])}{'?' if kept else ''}{kept}")


def _named(sheet: Sheet, form: PrintForm) -> str:
    whose = slugify(person_key(form.reader.name))
    return f"{sheet.key}-{whose}" if whose else sheet.key


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
