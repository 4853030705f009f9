"""What couples and photographers both read: dates and lengths in the language that is active."""

from __future__ import annotations

from datetime import date, datetime

from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, pgettext

UNNAMED = gettext_lazy("Your photographer")
KEPT = gettext_lazy(
    "We keep what you write here to plan your day and to photograph it. People who work with us "
    "that day get only what they need for it: names, times and places. A year after the day we "
    "delete your answers; your photographs we keep as we agreed with you. Ask us at any time what "
    "we hold about you, and we tell you, mend it or delete it."
)


def kept_for(months: int) -> str:
    """What we say of how long answers are kept, where the studio has no words of its own."""
    if months == 12:
        return str(KEPT)
    return ngettext(
        "We keep what you write here to plan your day and to photograph it. People who work with "
        "us that day get only what they need for it: names, times and places. %(count)s month "
        "after the day we delete your answers; your photographs we keep as we agreed with you. Ask "
        "us at any time what we hold about you, and we tell you, mend it or delete it.",
        "We keep what you write here to plan your day and to photograph it. People who work with "
        "us that day get only what they need for it: names, times and places. %(count)s months "
        "after the day we delete your answers; your photographs we keep as we agreed with you. Ask "
        "us at any time what we hold about you, and we tell you, mend it or delete it.",
        months,
    ) % {"count": months}


# Django's own, named once more: its Polish ones begin with a capital, as Polish does not.
WEEKDAYS = (
    gettext_lazy("Monday"),
    gettext_lazy("Tuesday"),
    gettext_lazy("Wednesday"),
    gettext_lazy("Thursday"),
    gettext_lazy("Friday"),
    gettext_lazy("Saturday"),
    gettext_lazy("Sunday"),
)


def long_date(value: date | datetime) -> str:
    """Saturday 12 June 2027. Some languages write the first of a month differently."""
    if value.day == 1:
        return date_format(value, pgettext("date on the first of a month", "l j F Y"))
    return date_format(value, pgettext("date", "l j F Y"))


def day_and_month(value: date | datetime) -> str:
    """Saturday 12 June."""
    if value.day == 1:
        return date_format(value, pgettext("date on the first of a month", "l j F"))
    return date_format(value, pgettext("date", "l j F"))


def calendar_date(value: date | datetime) -> str:
    """12 June 2027."""
    if value.day == 1:
        return date_format(value, pgettext("date on the first of a month", "j F Y"))
    return date_format(value, pgettext("date", "j F Y"))


def calendar_time(value: datetime) -> str:
    """12 June 2027, 14:05."""
    return _on_the_clock(calendar_date(value), value)


def day_and_time(value: datetime) -> str:
    """Saturday 12 June, 14:05."""
    return _on_the_clock(day_and_month(value), value)


def _on_the_clock(day: str, value: datetime) -> str:
    return _("%(day)s, %(time)s") % {"day": day, "time": time_format(value, "H:i")}


def how_long(minutes: float, shown: str = "") -> str:
    """25 minutes; fractions are rounded up, since nobody is early.

    `shown` stands in the place of the figure, where that is filled in later.
    """
    count = -int(-minutes // 1)
    return ngettext("%(count)s minute", "%(count)s minutes", count) % {"count": shown or count}
