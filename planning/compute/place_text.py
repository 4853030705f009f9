"""A spot on the ground from what people paste: coordinates in any common shape.

Read are a `geo:` URI (RFC 5870), a full Plus Code (Open Location Code), degrees, minutes and
seconds with a hemisphere, and a decimal pair with latitude first, alone or inside a text or a
web address. Nothing is guessed: what could mean two places is refused.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from datetime import timedelta
from decimal import Decimal
from typing import TypeVar
from urllib.parse import unquote

from . import plus_code
from .compass_text import hemispheres
from .light.sky import checked
from .values import Spot

# Ours, in hours; real zones stray up to about three from the sun (western China).
FAR_FROM_ZONE, ODD_FOR_ZONE, BETTER_SWAPPED = 4.0, 2.0, 1.25
LONGEST = 4000
HELP = "Give latitude and longitude, like 51.4778, -0.0015, or a full Plus Code."

_GEO = re.compile(r"\bgeo:([^\s<>\"']+)", re.IGNORECASE)
_NUMBER = r"-?\d+(?:\.\d+)?"
_GEO_NUMBERS = re.compile(rf"({_NUMBER}),({_NUMBER})(?:,{_NUMBER})?")
_POINTS = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*[,;]\s*([+-]?\d+(?:\.\d+)?)")
_SPACED = re.compile(r"([+-]?\d+\.\d+)\s+([+-]?\d+\.\d+)")
_COMMAS = re.compile(r"([+-]?\d+,\d+)(?:\s*;\s*|\s*,\s+|\s+)([+-]?\d+,\d+)")
# In a text only long fractions count: prices and paragraph numbers have short ones.
_LONG = r"(-?\d{1,3}\.\d{3,})"
_INSIDE = re.compile(rf"(?<![\w.,-]){_LONG}\s*[,;~|/]\s*{_LONG}(?!\d)")
# Where an address says that a pair is one, or marks the place itself beside the map's middle.
_ASKED = re.compile(r"[?&#]\w+=([+-]?\d{1,3}\.\d+)\s*[,~]\s*([+-]?\d{1,3}\.\d+)(?![\d.])")
_PIN = re.compile(rf"!3d{_LONG}!4d{_LONG}(?!\d)")
_LABELLED = re.compile(
    r"(?<![a-z])m?(?P<axis>lat|lon|lng|long)(?:itude)?\s*[:=]?\s*(?P<figures>[+-]?\d+(?:\.\d+)?)(?!\d|[.,]\d|°)",
    re.IGNORECASE,
)
_LABELS = re.compile(r"\b(?:latitude|longitude|lat|lon|lng)\b\s*[:=]?|[°()\[\]]", re.IGNORECASE)
_SIGNS = str.maketrans("−–′’‘″”“º˚", "--'''\"\"\"°°")

T = TypeVar("T")


def parse_place(text: str) -> Spot:
    """Return the spot that `text` names; ValueError with one clear line when it names none."""
    if len(text) > LONGEST:
        raise ValueError(f"That text is longer than {LONGEST} letters. {HELP}")
    plain = unquote(text).translate(_SIGNS).strip()
    for read in (_geo, _plus_code, hemispheres, _labelled, _pair, _pair_inside):
        spot = read(plain)
        if spot is not None:
            return spot
    short = plus_code.SHORT.search(plain)
    if short:
        raise ValueError(f"{short[0]} is a short Plus Code; give the full one, like 8FVC9G8F+6W.")
    raise ValueError(f"There are no coordinates in that text. {HELP}")


def pair_text(spot: Spot) -> str:
    """Latitude and longitude as `parse_place` reads them back, to the last figure."""
    return ", ".join(format(Decimal(repr(float(x))), "f") for x in (spot.latitude, spot.longitude))


def far_from_zone(spot: Spot, offset: timedelta) -> bool:
    """Whether `spot` sits badly in a zone whose usual UTC offset is `offset`.

    True when the sun's own time there is over four hours from the zone's, or over two and the
    swapped pair would sit clearly better. A hint to ask about swapped coordinates or a lost
    sign, never a reason to refuse.
    """
    gap, swapped = (_hours_off(offset, x) for x in (spot.longitude, spot.latitude))
    swaps = abs(spot.longitude) <= 90 and gap - swapped > BETTER_SWAPPED
    return gap > FAR_FROM_ZONE or (gap > ODD_FOR_ZONE and swaps)


def _hours_off(offset: timedelta, longitude: float) -> float:
    return abs((offset.total_seconds() / 3600 - longitude / 15 + 12) % 24 - 12)


def _geo(text: str) -> Spot | None:
    found = _GEO.search(text)
    if not found:
        return None
    address, _, query = found[1].rstrip(".,;)").partition("?")
    numbers, *parameters = address.split(";")
    # Some apps put the place into a query and leave nothing before it.
    pair = re.match(rf"q=({_NUMBER}),({_NUMBER})", query) or _GEO_NUMBERS.fullmatch(numbers)
    if not pair:
        raise ValueError("That geo: address does not begin with latitude and longitude.")
    for parameter in parameters:
        name, _, value = parameter.lower().partition("=")
        if name == "crs" and value != "wgs84":
            raise ValueError("That geo: address is not in WGS 84, the only grid read here.")
    return _spot(pair[1], pair[2])


def _plus_code(text: str) -> Spot | None:
    found = {match[0].upper() for match in plus_code.FULL.finditer(text)}
    if not found:
        return None
    code = _only(found)
    if "0" in code:
        raise ValueError(f"The Plus Code {code} covers kilometres; give one without zeros.")
    return plus_code.decode(code).centre


def _pair(text: str) -> Spot | None:
    bare = _LABELS.sub(" ", text).strip()
    for shape in (_POINTS, _SPACED, _COMMAS):
        pair = shape.fullmatch(bare)
        if pair:
            return _spot(pair[1].replace(",", "."), pair[2].replace(",", "."))
    return None


def _labelled(text: str) -> Spot | None:
    """Figures that say which they are, in either order: lat=51.4778&lon=-0.0015."""
    named = {(m["axis"][:3].lower() == "lat", m["figures"]) for m in _LABELLED.finditer(text)}
    north = [figures for is_latitude, figures in named if is_latitude]
    east = [figures for is_latitude, figures in named if not is_latitude]
    if not north or not east:
        return None
    return checked(Spot(float(_only(north)), float(_only(east))))


def _pair_inside(text: str) -> Spot | None:
    if pins := {match.groups() for match in _PIN.finditer(text)}:
        return _spot(*_only(pins))
    pairs = [*_INSIDE.finditer(text), *_ASKED.finditer(text)]
    found = {(float(match[1]), float(match[2])): match.groups() for match in pairs}
    return _spot(*found[_only(found)]) if found else None


def _only(found: Collection[T]) -> T:
    if len(found) > 1:
        raise ValueError("There is more than one place in that text; give just one.")
    return next(iter(found))


def _spot(latitude: str, longitude: str) -> Spot:
    spot = Spot(float(latitude), float(longitude))
    if 90 < abs(spot.latitude) <= 180 and abs(spot.longitude) <= 90:
        raise ValueError(
            f"Latitude {latitude} is beyond 90. "
            f"Latitude comes first: is it {longitude}, {latitude}?"
        )
    return checked(spot)
