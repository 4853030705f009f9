"""Bearings and skylines as people type them: "225", "south-west", and "NW 12" one a line.

The names are the thirty-two points of the mariner's compass, a point being 360 / 32 = 11.25
degrees; weather maps use every second of them, the sixteen winds. A bearing is true, clockwise
from north: nothing here knows of magnetic north.
"""

from __future__ import annotations

import re

from .light.skyline import Skyline

BOXED = (
    "N NbE NNE NEbN NE NEbE ENE EbN E EbS ESE SEbE SE SEbS SSE SbE "
    "S SbW SSW SWbS SW SWbW WSW WbS W WbN WNW NWbW NW NWbN NNW NbW"
)
POINTS = tuple(BOXED.split())
POINT = 360 / len(POINTS)
NAMED = {name.lower(): number * POINT for number, name in enumerate(POINTS)}
# A compass that shows "225° SW" names the nearest of eight or sixteen directions.
NEAREST = 22.5
LONGEST_LINE, MOST_LINES = 60, 72
HELP = "Give degrees from 0 to 360, or a direction like NW or south-west."
LINE_HELP = "Give a bearing and a height in degrees, like NW 12 or 300 12."

Points = tuple[tuple[float, float], ...]

_NUMBER = r"[+-]?\d{1,9}(?:[.,]\d{1,9})?"
_DEGREES = r"\s*(?:°|º|˚|deg(?:rees?)?\b)?"
_BEARING = re.compile(rf"(?P<number>{_NUMBER})?{_DEGREES}(?P<name>.*)", re.IGNORECASE | re.DOTALL)
_LINE = re.compile(rf"(?P<bearing>.+?)(?:\s*[:;=]\s*|\s*,\s*|\s+)(?P<height>{_NUMBER}){_DEGREES}")
_LETTERS = (("north", "n"), ("east", "e"), ("south", "s"), ("west", "w"), ("by", "b"))


def parse_bearing(text: str) -> float:
    """Degrees from 0 to 360 out of figures or a named direction, rounded to a hundredth.

    "225", "225,5°", "SW", "south-west", "South west by south" and "225° SW" are read. Raises
    ValueError with one line for anything else, and for a figure and a name that disagree.
    """
    typed = " ".join(text.replace("−", "-").split())
    match = _BEARING.fullmatch(typed)
    figure, name = (match["number"], match["name"]) if match else (None, typed)
    if len(typed) > LONGEST_LINE or not (figure or name):
        raise ValueError(HELP)
    named = _named(name) if name else None
    if name and named is None:
        raise ValueError(f"“{typed}” is no direction we can read. {HELP}")
    if figure is None:
        return float(named or 0.0)
    bearing = round(_number(figure), 2)
    if not 0 <= bearing <= 360:
        raise ValueError(f"The bearing {bearing:g} is not between 0 and 360 degrees.")
    if named is not None and abs((bearing - named + 180) % 360 - 180) > NEAREST:
        raise ValueError(f"“{typed}” names two directions; give just one.")
    return bearing


def wind_name(bearing: float) -> str:
    """The nearest of the sixteen winds, as N or WSW."""
    return POINTS[round(bearing / (2 * POINT)) % 16 * 2]


def parse_skyline(text: str) -> tuple[Points, tuple[str, ...]]:
    """What hides the low sun, one (bearing, height) a line, and a line of words for each fault.

    Blank lines are passed over, the order is kept. A height is -10 to 90 degrees above level; a
    bearing may come once.
    """
    points: dict[float, tuple[float, float]] = {}
    faults = []
    lines = [(n, line.strip()) for n, line in enumerate(text.splitlines(), 1) if line.strip()]
    for number, line in lines[:MOST_LINES]:
        try:
            point = _point(line)
            if point[0] % 360 in points:
                raise ValueError(f"The bearing {point[0]:g} is there twice; give it once.")
            points[point[0] % 360] = point
        except ValueError as fault:
            faults.append(f"Line {number}: {fault}")
    if len(lines) > MOST_LINES:
        faults.append(f"{len(lines)} lines are more than {MOST_LINES}: one for every 5° is enough.")
    return tuple(points.values()), tuple(faults)


def skyline_text(points: Points) -> str:
    """The lines that `parse_skyline` reads back to the same points."""
    return "\n".join(f"{bearing:g} {height:g}" for bearing, height in points)


def _point(line: str) -> tuple[float, float]:
    match = _LINE.fullmatch(line.replace("−", "-")) if len(line) <= LONGEST_LINE else None
    if match is None:
        shown = line if len(line) <= LONGEST_LINE else f"{line[:LONGEST_LINE]}…"
        raise ValueError(f"“{shown}” is not read. {LINE_HELP}")
    point = (parse_bearing(match["bearing"]), round(_number(match["height"]), 2))
    Skyline((point,))
    return point


def _named(name: str) -> float | None:
    letters = re.sub(r"[\s.-]", "", name.lower()).removeprefix("due")
    for word, letter in _LETTERS:
        letters = letters.replace(word, letter)
    return NAMED.get(letters)


def _number(text: str) -> float:
    return float(text.replace(",", "."))
