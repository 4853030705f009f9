"""Degrees, minutes and seconds with N, S, E or W: 51°28'40.12"N 0°0'5.31"W and its kin."""

from __future__ import annotations

import re

from .light.sky import checked
from .values import Spot

_NUMBER = r"\d+(?:[.,]\d+)?"
_ANGLE = (
    rf"(?P<d>{_NUMBER})"
    rf"(?:(?:\s*(?:°|(?-i:deg|d)|:)\s*|\s+)(?P<m>{_NUMBER})"
    rf"(?:(?:\s*(?:'|(?-i:min|m)|:)\s*|\s+)(?P<s>{_NUMBER}))?)?"
    r"\s*(?:°|''|'|\"|(?-i:deg|d|min|m|sec|s))?"  # a capital S is south
)
_AFTER = re.compile(rf"(?<![\w.,-]){_ANGLE}\s*(?P<h>[NSEW])(?![a-z])", re.IGNORECASE)
_BEFORE = re.compile(rf"(?<![a-z])(?P<h>[NSEW])\s*:?\s*{_ANGLE}", re.IGNORECASE)


def hemispheres(text: str) -> Spot | None:
    """The one spot given with hemispheres in `text`, either order; None when there is none.

    Without a degree sign the text must hold nothing else, so that "12 S Main St" is no place.
    Raises ValueError for two places, for minutes or seconds of 60 and more, and for a fraction
    anywhere but last.
    """
    for shape in (_AFTER, _BEFORE):
        found = list(shape.finditer(text))
        axes = ["latitude" if match["h"] in "NSns" else "longitude" for match in found]
        if set(axes) != {"latitude", "longitude"} or not _meant(shape, text):
            continue
        if len(found) > 2:
            raise ValueError("There is more than one place in that text; give just one.")
        return checked(Spot(**dict(zip(axes, map(_degrees, found), strict=True))))
    return None


def _meant(shape: re.Pattern[str], text: str) -> bool:
    return "°" in text or not re.search(r"[^\W_]", shape.sub(" ", text))


def _degrees(match: re.Match[str]) -> float:
    parts = [match[part].replace(",", ".") for part in "dms" if match[part]]
    if any("." in part for part in parts[:-1]):
        raise ValueError(f"In {match[0].strip()} only the last number may have a fraction.")
    whole, minutes, seconds = (float(part) for part in [*parts, "0", "0"][:3])
    if minutes >= 60 or seconds >= 60:
        raise ValueError(f"In {match[0].strip()} minutes and seconds must be less than 60.")
    size = whole + minutes / 60 + seconds / 3600
    return -size if match["h"] in "SWsw" else size
