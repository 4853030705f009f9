"""Weddings found by a name, a place or a date.

Every name is read and compared here, not in the database: so accents and case count as little on
SQLite as on PostgreSQL, and names are compared as they are everywhere else. For 5,000 weddings
that is measured by `manage.py bench --only season`.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from functools import lru_cache

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.models import Day, Partner, Place, Wedding
from intake.rows import typed

from .compute.people import person_key
from .search_terms import is_meant, terms_of

LONGEST = 100
# A cache of its own: thousands of names would push those of the weddings at hand out of the other.
folded = lru_cache(maxsize=65_536)(person_key.__wrapped__)


class SearchForm(forms.Form):
    q = forms.CharField(
        label=_("Find a wedding"),
        help_text=_("A name, a place or a date: Ödön, old mill, 12 June, March 2028."),
        max_length=LONGEST,
        required=False,
        widget=forms.TextInput({"type": "search", "autocomplete": "off", "spellcheck": "false"}),
        error_messages={
            "max_length": _(
                "Search with at most %(limit_value)d characters, yours are %(show_value)d."
            )
        },
    )

    def __init__(self, data: QueryDict) -> None:
        super().__init__(typed(data, []))
        self.fields["q"].demanded = True  # no "(optional)": nothing else is on this form

    @property
    def words(self) -> str:
        """What to look for; "" where nothing was asked."""
        words = self.cleaned_data["q"] if self.is_valid() else ""
        return words if terms_of(words) else ""


def found(words: str, today: date) -> list[int]:
    """The keys of weddings with all of these words: those ahead first, soonest first, then those
    that are past, latest first."""
    terms, texts, days = terms_of(words), _texts(), _days()
    every = Wedding.objects.order_by("pk").values_list("pk", flat=True)
    hits = [pk for pk in every if is_meant(terms, texts[pk], days[pk])]
    return sorted(hits, key=lambda pk: _place(days[pk], today))


def _texts() -> dict[int, str]:
    texts: dict[int, str] = defaultdict(str)
    partners = Partner.objects.order_by().values_list("wedding_id", "name", "called")
    for wedding, name, called in partners:
        texts[wedding] += f"{folded(name)}\n{folded(called)}\n"
    for wedding, name in Place.objects.order_by().values_list("wedding_id", "name"):
        texts[wedding] += f"{folded(name)}\n"
    return texts


def _days() -> dict[int, list[date]]:
    days: dict[int, list[date]] = defaultdict(list)
    for wedding, day in Day.objects.order_by().values_list("wedding_id", "date"):
        days[wedding].append(day)
    return days


def _place(days: list[date], today: date) -> tuple[bool, int]:
    if not days:
        return (False, date.max.toordinal())
    past = max(days) < today
    return (past, -min(days).toordinal() if past else min(days).toordinal())
