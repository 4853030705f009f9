"""The photographer's weddings by date, and what each waits for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.core.paginator import Page, Paginator
from django.db.models import F, Prefetch, Q
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.listed import shared_questions
from intake.models import Question, Wedding
from intake.progress import Progress, count_missing, progress
from studio.models import Studio
from studio.words import calendar_date

from .models import Agreement
from .retention import months_after
from .season_search import found
from .taken_out import FIRST, LAST

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


def season_page(now: datetime, number: object, past: bool, words: str = "") -> Page:
    """One page of weddings that lie ahead, soonest first, or of past ones, latest first; or, with
    words to look for, of all in which these are (`season_search.py`)."""
    studio = Studio.get()
    zone = ZoneInfo(studio.zone)
    today = now.astimezone(zone).date()
    # The keys of all, then the rows of one page: grouping whole rows takes thrice as long.
    keys = found(words, today) if words else _by_date(today, past)
    page = Paginator(keys, PAGE).get_page(number)
    weddings = (
        Wedding.objects.select_related("decisions")
        .prefetch_related(*READ_WITH, VERSIONS)
        .in_bulk(page.object_list)
    )
    shared = shared_questions()
    page.object_list = [
        entry(weddings[key], now, studio, shared) for key in page.object_list if key in weddings
    ]
    return page


def _by_date(today: date, past: bool) -> list[int]:
    order = F("first").desc() if past else F("first").asc(nulls_last=True)
    days = Wedding.objects.values("pk").annotate(first=FIRST, last=LAST)
    there = days.filter(Q(last__lt=today) if past else Q(last__gte=today) | Q(last=None))
    return list(there.order_by(order, "pk").values_list("pk", flat=True))


def entry(wedding: Wedding, now: datetime, studio: Studio, shared: list[Question]) -> Entry:
    """What a wedding waits for next; `shared` are the studio's own questions."""
    zone = ZoneInfo(studio.zone)
    today = now.astimezone(zone).date()
    if wedding.dates and wedding.dates[-1] < today:
        return _past(wedding, today, studio.keep_months)
    if not wedding.sent_at:
        return _unsent(wedding, progress(wedding, shared), today)
    if missing := count_missing(wedding, shared):
        text = ngettext("sent, %(count)s thing missing", "sent, %(count)s things missing", missing)
        return Entry(wedding, text % {"count": missing})
    return Entry(wedding, _after_answers(wedding, now, zone))


def _past(wedding: Wedding, today: date, months: int) -> Entry:
    by = months_after(wedding.dates[-1], months)
    words = _("its answers to be erased by %(date)s") % {"date": calendar_date(by)}
    return Entry(wedding, words, urgent=by <= today)


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
