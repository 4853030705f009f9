"""The only formatting code: times, lengths and sentences, for pages and papers alike."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time
from typing import Any

from django import template
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio import words

register = template.Library()


@register.filter
def clock(value: datetime | time | None) -> str:
    """14:05, to the nearest minute; nothing where there is no time."""
    if isinstance(value, datetime):  # as almanacs print it, but never a minute of another day
        nearest = datetime.fromtimestamp((value.timestamp() + 30) // 60 * 60, value.tzinfo)
        value = nearest if nearest.date() == value.date() else value
    return f"{value:%H:%M}" if value else ""


@register.filter
def span(block: Any) -> str:
    """14:05–14:30; a drive that nobody has timed has no end to tell."""
    begins = clock(block.start)
    if block.untimed:
        return gettext("%(at)s, not timed yet") % {"at": begins}
    return f"{begins}–{clock(block.end)}"


@register.filter
def long_date(value: date | datetime | None) -> str:
    """Saturday 12 June 2027."""
    return words.long_date(value) if value else ""


@register.filter
def day_and_month(value: date | datetime) -> str:
    return words.day_and_month(value)


@register.filter
def calendar_date(value: date | datetime) -> str:
    return words.calendar_date(value)


@register.filter
def calendar_time(value: datetime) -> str:
    return words.calendar_time(value)


@register.filter
def day_and_time(value: datetime) -> str:
    return words.day_and_time(value)


@register.filter
def minutes(value: float | None) -> str:
    """25 minutes; fractions are rounded up, since nobody is early."""
    return words.how_long(value or 0)


@register.filter
def minutes_for(studio: object, sizes: list[int]) -> float:
    return studio.minutes_for(sizes)


@register.filter
def said(finding: object) -> str:
    """A finding as one sentence in the reader's language."""
    return gettext(finding.message) % {k: _in_words(v) for k, v in finding.values.items()}


def _in_words(value: object) -> object:
    if isinstance(value, date):
        return words.long_date(value)
    if isinstance(value, tuple):
        return ", ".join(str(_in_words(each)) for each in value)
    if hasattr(value, "message"):  # a sentence within one
        return said(value)
    return gettext(value) if value and isinstance(value, str) else value


@register.filter
def block_title(block: object) -> str:
    title = gettext(block.title) if block.title else ""
    if block.kind == "travel":
        return title % {"place": block.place.name}
    return title


@register.filter
def percent(share: float) -> str:
    """0.034 as "3.4"; rounded up, since it is a promise about the best."""
    return f"{-int(-share * 1000 // 1) / 10:g}"


@register.filter
def unlocalize_number(value: float | str) -> str:
    """A figure as an HTML number field wants it, whatever the reader's language."""
    return f"{value:g}" if isinstance(value, float) else str(value)


@register.filter
def names(people: Iterable[str]) -> str:
    return ", ".join(people)


@register.filter
def lookup(mapping: dict, key: object) -> object:
    return mapping.get(key)


LIGHT_LINES = (
    (_("Sunrise"), "sunrise", None),
    (_("Golden light, morning"), "golden_morning_start", "golden_morning_end"),
    (_("Golden light, evening"), "golden_evening_start", "golden_evening_end"),
    (_("Sunset"), "sunset", None),
    (_("Blue light, evening"), "blue_evening_start", "blue_evening_end"),
)
ABSENT = {
    "always_up": _("the sun stays above this all day"),
    "always_down": _("the sun stays below this all day"),
    "not_this_day": _("not on this date"),
}


@register.filter
def light_lines(sheet: object) -> list[tuple[str, str]]:
    """The light of a day in a few lines: (what, when or why not)."""
    return [
        (str(label), _span(sheet.first(a), b and sheet.first(b))) for label, a, b in LIGHT_LINES
    ]


def _span(start: object, end: object) -> str:
    if start is None or start.at is None:
        return str(ABSENT.get(start.reason, "")) if start else ""
    return f"{clock(start.at)}–{clock(end.at)}" if end and end.at else clock(start.at)
