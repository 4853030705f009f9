"""Dates and times as people write them."""

from __future__ import annotations

import re
from datetime import date, time
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

DATE_FORMATS = ["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y", "%d-%m-%Y", "%d.%m.%y", "%d/%m/%y"]
DATE_FORMATS += ["%d %B %Y", "%d %b %Y", "%B %d %Y", "%b %d %Y"]
TIME_FORMATS = ["%H:%M", "%H.%M", "%H:%M:%S", "%I:%M%p", "%I.%M%p", "%I%p", "%H", "%H%M"]
WORDS = {"noon": "12:00", "midday": "12:00", "midnight": "00:00"}
WEEKDAY = r"\b(mon|tues?|wed(nes)?|thu(rs?)?|fri|sat(ur)?|sun)(day)?\b\.?"


def plain_date(text: str) -> str:
    """Without weekday, commas and the letters of "4th"; "Sept" as everybody else writes it."""
    text = re.sub(WEEKDAY, " ", text, flags=re.IGNORECASE)
    text = re.sub(r"(\d)(st|nd|rd|th)\b", r"\1", text.replace(",", " "), flags=re.IGNORECASE)
    text = re.sub(r"\b(of|the)\b", " ", text, flags=re.IGNORECASE)
    return " ".join(re.sub(r"\bsept\b\.?", "Sep", text, flags=re.IGNORECASE).split())


def plain_time(text: str) -> str:
    """Without spaces and the stops of "p.m."; noon and midnight as figures."""
    text = text.strip().lower()
    return WORDS.get(text, re.sub(r"([ap])\.?m\.?$", r"\1m", text).replace(" ", ""))


def check_year(value: date) -> None:
    """A slip of the finger in a year; sun and clocks are not computed for every year either."""
    if not 1970 <= value.year <= 2199:
        raise forms.ValidationError(_("Look at the year: %(year)s.") % {"year": value.year})


class DateField(forms.DateField):
    default_error_messages = {"invalid": _("Enter a date that exists, like 12 June 2027.")}
    default_validators = [check_year]

    def __init__(self, **kwargs: Any) -> None:
        # A text box: a browser's own date box throws away what it cannot read. What is kept
        # comes back with its weekday.
        attrs = {"autocomplete": "off"}
        widget = forms.DateInput(attrs, format="%A %-d %B %Y")
        super().__init__(input_formats=DATE_FORMATS, widget=widget, **kwargs)

    def to_python(self, value: Any) -> date | None:
        return super().to_python(plain_date(value) if isinstance(value, str) else value)


class TimeField(forms.TimeField):
    default_error_messages = {"invalid": _("Enter a time like 14:30.")}

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.TimeInput({"autocomplete": "off"}, format="%H:%M")
        super().__init__(input_formats=TIME_FORMATS, widget=widget, required=False, **kwargs)

    def to_python(self, value: Any) -> time | None:
        return super().to_python(plain_time(value) if isinstance(value, str) else value)
