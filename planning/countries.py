"""Countries by their ISO 3166-1 codes, from the tables of the IANA time zone database.

The tables come with the tzdata package: iso3166.tab names the codes, zone.tab says which country
a time zone is of. Names are English, as the table has them.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

# What people write beside the table's "Britain (UK)" and "United States".
ALSO = {
    "uk": "GB",
    "united kingdom": "GB",
    "great britain": "GB",
    "england": "GB",
    "scotland": "GB",
    "wales": "GB",
    "northern ireland": "GB",
    "usa": "US",
    "united states of america": "US",
    "czechia": "CZ",
    "turkiye": "TR",
    "holland": "NL",
    "samoa": "WS",  # the standard's name; the other one is American Samoa
    "american samoa": "AS",
    "aland islands": "AX",
    "ivory coast": "CI",
    "south korea": "KR",
    "north korea": "KP",
}


@cache
def _rows(table: str) -> tuple[tuple[str, ...], ...]:
    lines = files("tzdata.zoneinfo").joinpath(table).read_text(encoding="utf-8").splitlines()
    return tuple(tuple(line.split("\t")) for line in lines if line and line[0] != "#")


@cache
def names() -> dict[str, str]:
    """Each code with its name."""
    return {code: name for code, name, *_rest in _rows("iso3166.tab")}


@cache
def _codes() -> dict[str, str]:
    """Each name as people write it, with its code."""
    whole = {_plain(name): code for code, name in names().items()}
    short = [(_plain(re.sub(r" \(.*\)", "", name)), code) for code, name in names().items()]
    count = Counter(name for name, _code in short)
    apart = {name: code for name, code in short if count[name] == 1}
    return apart | whole | {code.casefold(): code for code in names()} | ALSO


def _plain(text: str) -> str:
    """Without accents, capitals, and what a keyboard has not."""
    letters = unicodedata.normalize("NFKD", " ".join(text.split()).replace("’", "'"))
    return "".join(c for c in letters if not unicodedata.combining(c)).casefold()


@cache
def country_of(zone: str) -> str:
    """The country of a time zone; "" where the table has none for it."""
    return next((row[0] for row in _rows("zone.tab") if row[2] == zone), "")


def country_name(code: str) -> str:
    return names().get(code, code)


def spoken(codes: Iterable[str]) -> str:
    return ", ".join(country_name(code) for code in codes)


def read_countries(text: str) -> list[str]:
    """Codes of what somebody typed, names or codes with commas or one a line, each once."""
    found = []
    for part in filter(None, (each.strip() for each in re.split(r"[,;\n]", text))):
        code = _codes().get(_plain(part))
        if code is None:
            words = _("“%(country)s”: write its English name, or its two letters like NO.")
            raise ValidationError(words % {"country": part[:60]})
        found.append(code)
    return list(dict.fromkeys(found))
