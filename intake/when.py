"""Boxes for dates and times as people write them."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from studio.words import long_date

from .date_words import read_date, read_time


def check_year(value: date) -> None:
    """A slip of the finger in a year; sun and clocks are not computed for every year either."""
    if not 1970 <= value.year <= 2199:
        raise forms.ValidationError(_("Look at the year: %(year)s.") % {"year": value.year})


class DateInput(forms.DateInput):
    """A text box: a browser's own date box throws away what it cannot read.

    What is kept comes back with its weekday, in the page's language.
    """

    def format_value(self, value: Any) -> str | None:
        return long_date(value) if isinstance(value, date) else value


class DateField(forms.DateField):
    default_error_messages = {"invalid": _("Enter a date that exists, like 12 June 2027.")}
    default_validators = [check_year]
    widget = DateInput({"autocomplete": "off"})

    def to_python(self, value: Any) -> date | None:
        if not isinstance(value, str):
            return super().to_python(value)
        if not value.strip():
            return None
        if found := read_date(value):
            return found
        raise forms.ValidationError(self.error_messages["invalid"], code="invalid")


class TimeField(forms.TimeField):
    default_error_messages = {"invalid": _("Enter a time like 14:30.")}

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.TimeInput({"autocomplete": "off"}, format="%H:%M")
        super().__init__(widget=widget, required=False, **kwargs)

    def to_python(self, value: Any) -> time | None:
        if not isinstance(value, str):
            return super().to_python(value)
        if not value.strip():
            return None
        if found := read_time(value):
            return found
        raise forms.ValidationError(self.error_messages["invalid"], code="invalid")
