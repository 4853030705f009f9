"""What is typed to find a wedding: words of names and places, and dates as people say them."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from intake.date_words import BETWEEN, day_words, fold, month_words, read_date

from .compute.people import person_key

FILL = frozenset(BETWEEN.split())
FIGURES = [  # day before month, as everywhere here
    re.compile(r"(?P<day>\d{1,2})[./-](?P<month>\d{1,2})[./-]?"),
    re.compile(r"(?P<month>\d{1,2})[./-](?P<year>\d{4})"),
    re.compile(r"(?P<year>\d{4})[./-](?P<month>\d{1,2})"),
    re.compile(r"(?P<day>\d{1,2})(?:st|nd|rd|th|er|e|\.)?"),
    re.compile(r"(?P<year>\d{4})\.?"),
]


@dataclass(frozen=True)
class Term:
    """One word: `text` as names are compared, and which days it can mean (0: any).

    `says` is "when" for a part of a date, "fill" for a word that only stands beside one (a
    weekday, "the", "of"), "" for any other word.
    """

    text: str
    says: str = ""
    day: int = 0
    month: int = 0
    year: int = 0

    def means(self, when: date) -> bool:
        return (
            bool(self.says)
            and self.day in (0, when.day)
            and self.month in (0, when.month)
            and self.year in (0, when.year)
        )


def terms_of(typed: str) -> list[Term]:
    """Nothing where nothing is in it that could be looked for."""
    if whole := read_date(typed):
        return [_on(person_key(typed), whole)]
    pieces = re.split(r"[\s,;&+]+", typed)
    return [term for piece in pieces if (term := _term(piece)).text]


def _term(piece: str) -> Term:
    text, word = person_key(piece), fold(piece).strip(".’'")
    if whole := read_date(piece):
        return _on(text, whole)
    if word in month_words():
        return Term(text, "when", month=month_words()[word])
    for pattern in FIGURES:
        if found := pattern.fullmatch(word if word.isdecimal() else fold(piece)):
            figures = {name: int(figure) for name, figure in found.groupdict().items()}
            if 0 < figures.get("day", 1) <= 31 and 0 < figures.get("month", 1) <= 12:
                return Term(text, "when", **figures)
    return Term(text, "fill" if word in day_words() or word in FILL else "")


def _on(text: str, day: date) -> Term:
    return Term(text, "when", day.day, day.month, day.year)


def is_meant(terms: Collection[Term], days: Collection[date]) -> bool:
    """Whether one of the days is meant by all of these words together."""
    if not any(term.says == "when" for term in terms):
        return False
    return any(all(term.means(day) for term in terms) for day in days)
