"""Phone numbers as people write them: kept as typed, said back and dialled as from abroad."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

import phonenumbers as p

INTERNATIONAL = p.PhoneNumberFormat.INTERNATIONAL
RFC3966 = p.PhoneNumberFormat.RFC3966
MOST = 200  # characters; more is no phone number


def international(text: str, zone: str) -> str:
    """The numbers in a text, "+44 7700 900111", several with a stroke between; "" for none.

    A number without its country's code counts as one of the country that `zone` is in.
    """
    return " / ".join(p.format_number(each, INTERNATIONAL) for each in _numbers(text, zone))


def to_dial(text: str, zone: str) -> list[tuple[str, str]]:
    """Each number in a text as it is read out, with its `tel:` address (RFC 3966).

    One number stays as it was typed. What reads as none is there too, with no address.
    """
    found = _numbers(text, zone)
    if len(found) < 2:
        return [(text, p.format_number(found[0], RFC3966) if found else "")] if text else []
    return [(p.format_number(n, INTERNATIONAL), p.format_number(n, RFC3966)) for n in found]


def _numbers(text: str, zone: str) -> list[p.PhoneNumber]:
    if len(text) > MOST:
        return []
    country = country_of(zone)
    if whole := _read(text, country):
        return [whole]
    found = list(p.PhoneNumberMatcher(text, country, leniency=p.Leniency.POSSIBLE))
    # A plus sign that no number begins with belongs to one that could not be read.
    if text.count("+") != sum("+" in match.raw_string for match in found):
        return []
    return [match.number for match in found]


def _read(text: str, country: str | None) -> p.PhoneNumber | None:
    try:
        number = p.parse(text, country)
    except p.NumberParseException:
        return None
    possible = p.is_possible_number_with_reason(number) == p.ValidationResult.IS_POSSIBLE
    return number if possible else None


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
