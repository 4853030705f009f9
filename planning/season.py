"""The photographer's weddings by date, and what each waits for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.core.paginator import Page, Paginator
from django.db.models import F, Max, Min, Prefetch, Q
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.listed import shared_questions
from intake.models import Question, Wedding
from intake.progress import Progress, count_missing, progress
from studio.models import Studio

from .models import Agreement
from .taken_out import LISTED

PAGE = 50
READ_WITH = ("days", "partners", "steps", "places", "moments", "contacts")
READ_WITH += ("questions", "own_answers")
# Without their texts, which are long.
VERSIONS = Prefetch("agreements", Agreement.objects.only("wedding", "number", "confirmed_at"))


@dataclass(frozen=True)
class Entry:
    wedding: Wedding
    waits_for: str
    urgent: bool = False


def season_page(now: datetime, number: object, past: bool) -> Page:
    """One page of weddings that lie ahead, soonest first, or of past ones, latest first."""
    zone = ZoneInfo(Studio.get().zone)
    today = now.astimezone(zone).date()
    order = F("first").desc() if past else F("first").asc(nulls_last=True)
    weddings = (
        Wedding.objects.annotate(
            first=Min("days__date", filter=LISTED), last=Max("days__date", filter=LISTED)
        )
        .filter(Q(last__lt=today) if past else Q(last__gte=today) | Q(last=None))
        .order_by(order, "pk")
        .select_related("decisions")
        .prefetch_related(*READ_WITH, VERSIONS)
    )
    page = Paginator(weddings, PAGE).get_page(number)
    shared = shared_questions()
    page.object_list = [
        Entry(wedding, "") if past else entry(wedding, now, zone, shared)
        for wedding in page.object_list
    ]
    return page


def entry(wedding: Wedding, now: datetime, zone: ZoneInfo, shared: list[Question]) -> Entry:
    """What a wedding waits for next; `zone` is the studio's own, `shared` its questions."""
    if not wedding.sent_at:
        return _unsent(wedding, progress(wedding, shared), now.astimezone(zone).date())
    if missing := count_missing(wedding, shared):
        text = ngettext("sent, %(count)s thing missing", "sent, %(count)s things missing", missing)
        return Entry(wedding, text % {"count": missing})
    return Entry(wedding, _after_answers(wedding, now, zone))


def _unsent(wedding: Wedding, marks: list[Progress], today: date) -> Entry:
    marks = [each for each in marks if each.mark != "optional"]
    kept = sum(each.mark in {"done", "missing"} for each in marks)
    if all(each.mark == "not_started" for each in marks):
        text = _("the couple’s answers, not begun")
    elif kept < len(marks):
        words = _("the couple’s answers, %(kept)s of %(all)s steps kept")
        text = words % {"kept": kept, "all": len(marks)}
    else:
        text = _("the couple to send: every step is kept")
    due = wedding.answers_due
    if due and due < today:
        text = _("late, due %(date)s: %(what)s") % {"date": _date(due), "what": text}
        return Entry(wedding, text, urgent=True)
    return Entry(wedding, text)


def _after_answers(wedding: Wedding, now: datetime, zone: ZoneInfo) -> str:
    decisions = getattr(wedding, "decisions", None)
    meeting, visit = decisions and decisions.meeting_at, decisions and decisions.visit_at
    if meeting is None:
        return _("a planning meeting to agree")
    if meeting > now:
        return _("planning meeting on %(date)s") % {"date": _date(meeting.astimezone(zone))}
    newest = next(iter(wedding.agreements.all()), None)  # the highest number first
    if newest and newest.confirmed_at is None:
        return _("the couple to confirm what was agreed")
    if visit and visit > now:
        there = visit.astimezone(ZoneInfo(wedding.zone))
        return _("venue visit on %(date)s") % {"date": _date(there)}
    return _("the day")


def _date(value: date) -> str:
    return date_format(value, "j F")
