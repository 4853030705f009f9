"""Phone numbers as people write them: kept as typed, said back as one dials them from abroad."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

import phonenumbers as p

INTERNATIONAL = p.PhoneNumberFormat.INTERNATIONAL
MOST = 200  # characters; more is no phone number


def international(text: str, zone: str) -> str:
    """The numbers in a text, "+44 7700 900111", several with a stroke between; "" for none.

    A number without its country's code counts as one of the country that `zone` is in.
    """
    if len(text) > MOST:
        return ""
    country = country_of(zone)
    whole = _read(text, country)
    if whole:
        return whole
    found = list(p.PhoneNumberMatcher(text, country, leniency=p.Leniency.POSSIBLE))
    # A plus sign that no number begins with belongs to one that could not be read.
    if text.count("+") != sum("+" in match.raw_string for match in found):
        return ""
    return " / ".join(p.format_number(match.number, INTERNATIONAL) for match in found)


def _read(text: str, country: str | None) -> str:
    try:
        number = p.parse(text, country)
    except p.NumberParseException:
        return ""
    possible = p.is_possible_number_with_reason(number) == p.ValidationResult.IS_POSSIBLE
    return p.format_number(number, INTERNATIONAL) if possible else ""


@cache
def country_of(zone: str) -> str | None:
    """The ISO 3166 code of the country of a time zone, by the tz database's own zone.tab."""
    table = (files("tzdata") / "zoneinfo" / "zone.tab").read_text()
    rows = (line.split("\t") for line in table.splitlines() if not line.startswith("#"))
    return next((row[0] for row in rows if row[2] == zone), None)


def said_back(text: str, zone: str) -> str:
    """The international form where it says more than what was typed, else ""."""
    words = international(text, zone)
    return "" if words.replace(" ", "") == text.replace(" ", "") else words
