"""What the Ready screen shows: its lines by when they are due, what is late first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.models import Wedding
from studio.models import Studio
from studio.words import day_and_month

from .compute.check_ready import check_ready
from .compute.ready import ready_list
from .compute.ready_values import Entry, Ready
from .countries import spoken
from .ready_brief import load_ready
from .ready_words import (
    date_words,
    due_words,
    finding_values,
    known_words,
    summary,
    title_of,
    waits_words,
)

PLACES = {
    "link": gettext_lazy("Their link"),
    "answers": gettext_lazy("Answers"),
    "meeting": gettext_lazy("Meeting"),
    "visit": gettext_lazy("Venue visit"),
    "papers": gettext_lazy("Papers"),
    "day": gettext_lazy("Day"),
    "bag": gettext_lazy("Bag"),
    "insurance": gettext_lazy("Insurance"),
}


@dataclass(frozen=True)
class Line:
    """An entry as it is read; `url` and `link` lead to where it is done."""

    entry: Entry
    title: str
    due: str
    date: str
    known: str
    waits: str
    url: str
    link: str
    why: str
    caution: str
    source: str
    note: str = ""
    error: str = ""
    hint: str = ""

    @property
    def anchor(self) -> str:
        return f"line-{self.entry.key}"


@dataclass(frozen=True)
class Group:
    key: str
    title: str
    lines: list[Line] = field(default_factory=list)
    hint: str = ""

    @property
    def is_far(self) -> bool:
        """Far ahead lines stand under their dates, and do not ask to be pressed."""
        return self.key in {"week", "later"}


def open_groups() -> tuple[tuple[tuple[str, ...], str, str], ...]:
    """The parts of the page: which marks, title, and what it means."""
    return (
        (("late",), _("Late: do these first"), ""),
        (
            ("now",),
            _("Now"),
            _("Booked at short notice: usually these would have been done before the booking."),
        ),
        (("today",), _("Today"), ""),
        (("week",), _("Within a week"), ""),
        (("later",), _("Later"), ""),
        (("undated",), _("Once there is a date"), ""),
    )


def ready_page(
    wedding: Wedding,
    now: datetime,
    notes: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """`notes` are what somebody has typed and not kept, `errors` what is wrong with it."""
    ready = ready_list(load_ready(wedding.public_id), now)
    lines = {
        entry.key: replace(
            _line(entry, ready),
            note=(notes or {}).get(entry.key, ""),
            error=(errors or {}).get(entry.key, ""),
        )
        for entry in ready.entries
    }
    groups = [
        Group(marks[0], title, [lines[e.key] for e in ready.marked(*marks)], hint)
        for marks, title, hint in open_groups()
    ]
    return {
        "wedding": wedding,
        "screen": "ready",
        "ready": ready,
        "summary": summary(ready, now),
        "findings": [replace(f, values=finding_values(f.values)) for f in check_ready(ready)],
        "groups": [group for group in groups if group.lines],
        "settled": [lines[e.key] for e in ready.marked("done", "not_needed")],
        "passed": [lines[e.key] for e in ready.marked("passed")],
        "explains": Studio.get().explains,
        "countries": spoken(sorted(ready.brief.countries)),
        "other_clock": ready.brief.zone != ready.brief.home_zone,
        "errors": [(f"note-{key}", words) for key, words in (errors or {}).items()],
    }


def _line(entry: Entry, ready: Ready) -> Line:
    item = entry.item
    several = len(ready.brief.days) > 1 and entry.day and item.due.when != "before"
    return Line(
        entry=entry,
        title=title_of(item),
        due=due_words(entry),
        date=date_words(entry),
        known=known_words(entry.known),
        waits=waits_words(entry) if entry.is_open else "",
        url=_url(item.page, ready.brief.wedding),
        link=str(PLACES.get(item.page, "")),
        why=item.why if item.own else _(item.why),
        caution=_(item.caution) if item.caution else "",
        source=_(item.source),
        hint=_for_day(entry) if several else "",
    )


def _for_day(entry: Entry) -> str:
    return _("for %(day)s") % {"day": entry.day.title or day_and_month(entry.day.date)}


def _url(page: str, public_id: str) -> str:
    if not page:
        return ""
    return reverse(page) if page == "insurance" else reverse(page, args=[public_id])
