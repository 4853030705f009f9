"""A plan's light as it is shown, the same on page and paper."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString

from .compute.planned import Day, LightSheet, Plan
from .light_words import (
    BlockLine,
    Line,
    Named,
    block_lines,
    boundaries,
    low_sun,
    moon_words,
    named_windows,
    night_words,
    second_words,
)
from .ribbon import ribbon_svg
from .sun_path import SunPath, sun_path


@dataclass(frozen=True)
class PlaceLight:
    """One place on one day; `path` is None where its light cannot be known yet.

    `low` is sunrise, sunset and the skyline; `blocks` are with the letter that stands for each
    on the drawing, or "".
    """

    sheet: LightSheet
    path: SunPath | None
    boundaries: list[Line]
    low: list[Line]
    windows: list[Named]
    blocks: list[tuple[str, BlockLine]]
    moon: str
    night: str
    second: str


@dataclass(frozen=True)
class DayLight:
    day: Day
    ribbon: SafeString
    places: list[PlaceLight]


def light_of(plan: Plan) -> list[DayLight]:
    """Every day with the light at each of its places."""
    return [
        DayLight(
            day,
            ribbon_svg(day),
            [_place(sheet, f"hidden-{i}-{j}") for j, sheet in enumerate(day.light)],
        )
        for i, day in enumerate(plan.days)
    ]


def _place(sheet: LightSheet, ident: str) -> PlaceLight:
    path = sun_path(sheet, ident)
    letters = path.letters if path else {}
    return PlaceLight(
        sheet,
        path,
        boundaries(sheet),
        low_sun(sheet),
        named_windows(sheet),
        [(letters.get(line.lit.block.key, ""), line) for line in block_lines(sheet)],
        moon_words(sheet),
        night_words(sheet),
        second_words(sheet),
    )
