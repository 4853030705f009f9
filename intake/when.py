"""Dates and times as people write them."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

DATE_FORMATS = ["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y", "%d %B %Y", "%d %b %Y", "%A %d %B %Y"]
TIME_FORMATS = ["%H:%M", "%H.%M", "%H:%M:%S", "%I:%M %p", "%I.%M %p", "%I %p"]
TIME_FORMATS += [form.replace(" ", "") for form in TIME_FORMATS if " " in form]


def check_year(value: date) -> None:
    """A slip of the finger in a year; sun and clocks are not computed for every year either."""
    if not 1970 <= value.year <= 2199:
        raise forms.ValidationError(_("Look at the year: %(year)s.") % {"year": value.year})


class DateField(forms.DateField):
    default_error_messages = {"invalid": _("Enter a date that exists, like 12 June 2027.")}
    default_validators = [check_year]

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.DateInput({"type": "date"}, format="%Y-%m-%d")
        super().__init__(input_formats=DATE_FORMATS, widget=widget, **kwargs)


class TimeField(forms.TimeField):
    default_error_messages = {"invalid": _("Enter a time like 14:30.")}

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.TimeInput({"type": "time"}, format="%H:%M")
        super().__init__(input_formats=TIME_FORMATS, widget=widget, required=False, **kwargs)
