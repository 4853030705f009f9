"""Weddings found by a name, a place or a date.

Every name is compared here, not in the database: so accents and case count as little on SQLite as
on PostgreSQL, and names are compared as they are everywhere else. `manage.py bench --only season`
says what that costs.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.rows import typed

from .search_terms import Term, is_meant, terms_of
from .season_names import all_days, partner_names, place_names

LONGEST = 100


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
    terms, names = terms_of(words), (partner_names(), place_names())
    named = [set().union(*(each.weddings_with(term.text) for each in names)) for term in terms]
    hits, asks_when = set.intersection(*named), any(term.says == "when" for term in terms)
    dates = all_days() if hits or asks_when else {}
    if asks_when:
        hits |= set(_dated(list(zip(terms, named, strict=True)), dates))
    return sorted(hits, key=lambda wedding: _place(dates.get(wedding), today, wedding))


def _dated(terms: list[tuple[Term, set[int]]], dates: dict[int, list[date]]) -> Iterator[int]:
    """Weddings with those words that are no name of theirs as words of a day."""
    for wedding, days in dates.items():
        if is_meant([term for term, named in terms if wedding not in named], days):
            yield wedding


def _place(days: list[date] | None, today: date, wedding: int) -> tuple[bool, int, int]:
    if not days:
        return (False, date.max.toordinal(), wedding)
    past, first = max(days) < today, min(days).toordinal()
    return (past, -first if past else first, wedding)
