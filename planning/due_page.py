"""What is due next across all weddings, and how ready each of them is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Max
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.models import Wedding
from studio.models import Studio
from studio.words import calendar_date

from .compute.clashes import Clash
from .compute.ready import ready_list
from .compute.ready_items import ITEMS
from .compute.ready_values import Entry, Ready
from .models import ReadyItem
from .ready_brief import HOLD_DAYS, read_with_ready, ready_briefs
from .ready_words import date_words, due_words, finding_words, summary, title_of
from .season_days import season_clashes
from .taken_out import FIRST, LAST

AHEAD = timedelta(days=14)
MOST_WEDDINGS, MOST_LINES = 120, 200
MARKS = ("late", "now", "today", "week", "later")


@dataclass(frozen=True)
class DueLine:
    """One thing that is due for one wedding."""

    entry: Entry
    names: str
    wedding: str
    title: str
    due: str
    date: str
    why: str

    @property
    def mark(self) -> str:
        return self.entry.mark


@dataclass(frozen=True)
class Standing:
    """A wedding, and how ready it is in words."""

    wedding: Wedding
    day: date
    words: str


def clashes_now(studio: Studio) -> list[ToldClash]:
    return told_clashes(season_clashes(_today(timezone.now(), studio), studio))


def _today(now: datetime, studio: Studio) -> date:
    """Of the studio: a season is read on its own calendar."""
    return now.astimezone(ZoneInfo(studio.zone)).date()


def due_page(now: datetime) -> dict[str, object]:
    studio = Studio.get()
    today = _today(now, studio)
    weddings = list(_weddings(today))
    readies = [ready_list(brief, now) for brief in ready_briefs(weddings)]
    lines = sorted(
        (line for ready in readies for line in _lines(ready, now)),
        key=lambda line: (MARKS.index(line.mark), line.entry.due),
    )
    return {
        "late": [line for line in lines if line.mark in {"late", "now"}][:MOST_LINES],
        "soon": [line for line in lines if line.mark not in {"late", "now"}][:MOST_LINES],
        "left_off": max(0, len(lines) - MOST_LINES),
        "standings": [
            Standing(wedding, min(wedding.dates), summary(ready, now))
            for wedding, ready in zip(weddings, readies, strict=True)
            if not (ready.over and not ready.open)
        ],
        "is_cut": len(weddings) == MOST_WEDDINGS,
        "clashes": told_clashes(season_clashes(today, studio)),
        "explains": studio.explains,
        "screen": "due",
    }


def _weddings(today: date) -> Iterable[Wedding]:
    """Those near enough that something may be due for them, soonest first."""
    own = ReadyItem.objects.aggregate(most=Max("days"))["most"] or 0
    days = max(own, *(item.due.days for item in ITEMS))
    weddings = Wedding.objects.annotate(first=FIRST, last=LAST)
    weddings = weddings.filter(
        last__gte=today - timedelta(days=HOLD_DAYS), first__lte=today + AHEAD + timedelta(days=days)
    )
    return read_with_ready(weddings).order_by("first", "pk")[:MOST_WEDDINGS]


def _lines(ready: Ready, now: datetime) -> Iterable[DueLine]:
    for entry in ready.open:
        if entry.due and entry.due - now <= AHEAD:
            yield DueLine(
                entry,
                ready.brief.names,
                ready.brief.wedding,
                title_of(entry.item),
                due_words(entry),
                date_words(entry),
                entry.item.why if entry.item.own else _(entry.item.why),
            )


@dataclass(frozen=True)
class ToldClash:
    words: str
    weight: str
    link: str


def told_clashes(clashes: list[Clash]) -> list[ToldClash]:
    """Each in words, with the screen on which it can be mended."""
    return [
        ToldClash(_clash_words(clash), clash.finding.weight, clash.finding.step)
        for clash in clashes
    ]


def _clash_words(clash: Clash) -> str:
    values = clash.finding.values
    words = finding_words(clash.finding)
    if "count" not in values:
        return words
    after = ngettext(
        "Within half a year one wedding is not covered: %(first)s, %(day)s.",
        "Within half a year %(count)s weddings are not covered; the first is %(first)s, %(day)s.",
        values["count"],
    )
    return f"{words} {after % {**values, 'day': calendar_date(values['day'])}}"
