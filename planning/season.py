"""The photographer's weddings by date, and what each waits for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.core.paginator import Paginator
from django.db.models import Max, Min, Q
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.models import Wedding
from intake.progress import progress

PAGE = 50


@dataclass(frozen=True)
class Entry:
    wedding: Wedding
    waits_for: str
    urgent: bool = False


def season_page(today: date, number: object, past: bool) -> Paginator:
    weddings = (
        Wedding.objects.annotate(first=Min("days__date"), last=Max("days__date"))
        .filter(Q(last__lt=today) if past else Q(last__gte=today) | Q(last=None))
        .order_by("-first" if past else "first", "pk")
        .prefetch_related("days", "partners", "steps", "places", "moments", "contacts")
    )
    page = Paginator(weddings, PAGE).get_page(number)
    page.object_list = [entry(wedding, today) for wedding in page.object_list]
    return page


def entry(wedding: Wedding, today: date) -> Entry:
    marks = progress(wedding)
    kept = sum(each.mark in {"done", "missing"} for each in marks)
    missing = sum(len(each.missing) for each in marks)
    late = wedding.answers_due is not None and wedding.answers_due < today
    if wedding.sent_at and missing:
        text = ngettext(
            "answers sent, %(count)s thing missing",
            "answers sent, %(count)s things missing",
            missing,
        )
        return Entry(wedding, text % {"count": missing})
    if wedding.sent_at:
        return Entry(wedding, _("answers sent, nothing missing"))
    if kept == 0:
        text = _("the couple’s answers, due before today") if late else _("the couple’s answers")
        return Entry(wedding, text, late)
    text = _("the couple: %(kept)s of %(all)s steps kept") % {"kept": kept, "all": len(marks)}
    return Entry(wedding, text, late)
