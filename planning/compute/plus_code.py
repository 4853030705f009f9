"""Plus Codes, decoded after the Open Location Code specification (open, version 1.0)."""

from __future__ import annotations

import re
from typing import NamedTuple

from .values import Spot

DIGITS = "23456789CFGHJMPQRVWX"
PAIRS, LONGEST = 10, 15
# The finest cell: 1/25,000,000 degree of latitude by 1/8,192,000 of longitude.
LATITUDE_UNIT, LONGITUDE_UNIT = 25_000_000, 8_192_000

_EDGES = (r"(?<![\w+])", r"(?![\w+])")
FULL = re.compile(
    rf"(?:[{DIGITS}]{{8}}\+(?:[{DIGITS}]{{2,}})?"
    rf"|(?:[{DIGITS}]{{2}}0{{6}}|[{DIGITS}]{{4}}0{{4}}|[{DIGITS}]{{6}}00)\+)".join(_EDGES),
    re.IGNORECASE,
)
SHORT = re.compile(rf"(?:[{DIGITS}]{{2}}){{1,3}}\+[{DIGITS}]{{2,}}".join(_EDGES), re.IGNORECASE)


class Area(NamedTuple):
    """The cell a code names, in degrees."""

    south: float
    west: float
    north: float
    east: float

    @property
    def centre(self) -> Spot:
        return Spot((self.south + self.north) / 2, (self.west + self.east) / 2)


def decode(code: str) -> Area:
    """The area of a full Plus Code, in capitals or not; ValueError for anything else."""
    if not FULL.fullmatch(code):
        raise ValueError(f"{code!r} is no full Plus Code; one looks like 8FVC9G8F+6W.")
    digits = [DIGITS.index(c) for c in code.upper().replace("+", "").rstrip("0")[:LONGEST]]
    latitude = longitude = 0
    high, wide = LATITUDE_UNIT * 400, LONGITUDE_UNIT * 400
    for up, right in zip(digits[:PAIRS:2], digits[1:PAIRS:2], strict=True):
        high, wide = high // 20, wide // 20
        latitude, longitude = latitude + up * high, longitude + right * wide
    for digit in digits[PAIRS:]:
        high, wide = high // 5, wide // 4
        latitude, longitude = latitude + digit // 4 * high, longitude + digit % 4 * wide
    if latitude >= 180 * LATITUDE_UNIT or longitude >= 360 * LONGITUDE_UNIT:
        raise ValueError(f"The Plus Code {code!r} is not on the globe.")
    return Area(
        latitude / LATITUDE_UNIT - 90,
        longitude / LONGITUDE_UNIT - 180,
        (latitude + high) / LATITUDE_UNIT - 90,
        (longitude + wide) / LONGITUDE_UNIT - 180,
    )
