"""The sun's path over a place on one day, drawn as the textbook polar plot, and said in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from string import ascii_uppercase

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from studio.templatetags.clock import block_title, clock

from .compute.light import sun_course
from .compute.light.compass import compass_word
from .compute.light.sun import GOLDEN_TOP
from .compute.planned import LightSheet, SunThen
from .labels import LETTER, Box, Ground, Label
from .light_words import sun_words
from .polar import (
    BOTTOM,
    MIDDLE_X,
    MIDDLE_Y,
    RINGS,
    SUN,
    TICKS,
    WIDTH,
    Point,
    arrow,
    arrow_line,
    course_lines,
    dense,
    hatch,
    rings,
    skyline_shape,
    spot_of,
    sun_spot,
)

SMALL, LINE = 14, 21
LETTERED = ("ceremony", "confetti", "groups", "portraits", "golden")


@dataclass(frozen=True)
class SunPath:
    """The drawing, what it says in words, and which letter stands for which block on it."""

    svg: SafeString
    alt: str
    letters: dict[str, str]


def sun_path(sheet: LightSheet, ident: str) -> SunPath | None:
    """Draw a sheet's day; None where there is no spot. `ident` is the drawing's own id."""
    if sheet.noon is None:
        return None
    course, place = sun_course(sheet), sheet.place
    arrows = [(arrow(bearing, length), dashed) for bearing, length, dashed in _facings(sheet)]
    ground = Ground(Box(0, 0, WIDTH, BOTTOM))
    labels = _winds(ground)
    ground.keep_free(dense([sun_spot(t) for t in course]))
    ground.keep_free([sun_spot(t) for t in course if t.sun.altitude < GOLDEN_TOP], TICKS / 2)
    for line, _dashed in arrows:
        ground.keep_free(dense(line))
    labels += _rings(ground) + _ends(ground, sheet, course) + _hours(ground, course)
    marks = list(_marks(ground, sheet))
    legend, alt = list(_legend(sheet, course, ident)), _alt(sheet, course)
    svg = format_html(
        '<svg class="sunpath" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-family="Foreday Text, Source Sans 3, sans-serif" '
        'font-size="{}">{}{}{}{}{}{}{}{}</svg>',
        alt,
        WIDTH,
        round(BOTTOM + LINE * len(legend) + 4),
        SMALL,
        hatch(ident),
        skyline_shape(place.skyline, ident),
        rings(),
        format_html_join("", "{}", ((arrow_line(*each),) for each in arrows)),
        course_lines(course),
        format_html_join("", "{}", ((mark,) for mark, _letter in marks)),
        format_html_join("", "{}", ((_text(label),) for label in labels)),
        format_html_join("", "{}", ((row,) for row in _rows(legend))),
    )
    return SunPath(svg, alt, dict(letter for _mark, letter in marks))


def _facings(sheet: LightSheet) -> Iterator[tuple[float, float, bool]]:
    """Bearing, length and dashes of the arrows: the couple's ceremony, then the groups."""
    if sheet.place.ceremony_facing is not None:
        yield sheet.place.ceremony_facing, 0.8, False
    if sheet.place.group_facing is not None:
        yield sheet.place.group_facing, 0.6, True


def _found(labels: Sequence[Label | None]) -> list[Label]:
    return [label for label in labels if label]


def _winds(ground: Ground) -> list[Label]:
    names = (
        pgettext("compass, one letter", "N"),
        pgettext("compass, one letter", "E"),
        pgettext("compass, one letter", "S"),
        pgettext("compass, one letter", "W"),
    )
    return _found([ground.place(n, [spot_of(-9, 90 * i)], 15) for i, n in enumerate(names)])


def _rings(ground: Ground) -> list[Label]:
    turns = range(8, 368, 15)  # beside the cross of the winds, and inside the ring
    return _found([ground.place(f"{h}°", [spot_of(h + 6, t) for t in turns], 12) for h in RINGS])


def _ends(ground: Ground, sheet: LightSheet, course: Sequence[SunThen]) -> list[Label]:
    """The times of sunrise and sunset outside the rim, where the path begins and ends."""
    found = []
    for kind, then in zip(("sunrise", "sunset"), (course[:1], course[-1:]), strict=True):
        event = sheet.first(kind)
        if event and event.at and then:
            turns = (0, 6, -6, 12, -12, 18, -18)
            spots = [spot_of(-17, then[0].sun.azimuth + turn) for turn in turns]
            found.append(ground.place(clock(event.at), spots, SMALL))
    return _found(found)


def _hours(ground: Ground, course: Sequence[SunThen]) -> list[Label]:
    return _found(
        [
            ground.place(f"{then.at:%H}", _beside(then, later, (14, 18, 22), inwards=True), SMALL)
            for then, later in pairwise(course)
            if then.at.minute == 0
        ]
    )


def _beside(
    then: SunThen, later: SunThen, distances: Sequence[float], inwards: bool
) -> Iterator[Point]:
    """Spots square to the path, nearest first: on the one side, then on the other."""
    (x, y), (x2, y2) = sun_spot(then), sun_spot(later)
    length = hypot(x2 - x, y2 - y) or 1.0
    across = (y2 - y) / length, (x - x2) / length
    inner = 1 if (MIDDLE_X - x) * across[0] + (MIDDLE_Y - y) * across[1] >= 0 else -1
    for side in (inner, -inner) if inwards else (-inner, inner):
        yield from ((x + side * d * across[0], y + side * d * across[1]) for d in distances)


def _marks(ground: Ground, sheet: LightSheet) -> Iterator[tuple[SafeString, tuple[str, str]]]:
    """Letters beside the path where the sun stands as a block begins, and whose they are."""
    letters = list(ascii_uppercase)
    for lit in sheet.blocks:
        if lit.block.kind not in LETTERED or lit.first.sun.altitude <= 0:
            continue
        here = sun_spot(lit.first)
        spots = _beside(lit.first, lit.last, (26, 34, 44, 56, 70, 86, 104, 124), inwards=False)
        spots = [spot for spot in spots if not ground.crosses(dense([here, spot]))]
        label = ground.place(letters[0], spots, 15)
        if label:
            ground.keep_free(dense([here, (label.x, label.y)]))
            yield _mark(here, label), (lit.block.key, letters.pop(0))
        else:  # no room for a letter, but the sun still stands there
            yield _dot(here), (lit.block.key, "")


def _dot(here: Point) -> SafeString:
    x, y = (round(a, 1) for a in here)
    return format_html('<circle cx="{}" cy="{}" r="4" fill="currentColor"/>', x, y)


def _mark(here: Point, label: Label) -> SafeString:
    x, y = here
    middle = label.y - 5
    away = hypot(label.x - x, middle - y)
    x2, y2 = (a + (b - a) * (1 - 9 / away) for a, b in ((x, label.x), (y, middle)))
    return format_html(
        '<line x1="{0}" y1="{1}" x2="{2}" y2="{3}" stroke="currentColor"/>'
        '<circle cx="{0}" cy="{1}" r="4" fill="currentColor"/>{4}',
        round(x, 1), round(y, 1), round(x2, 1), round(y2, 1), _text(label, "600"),
    )  # fmt: skip


def _text(label: Label, weight: str = "400") -> SafeString:
    return format_html(
        '<text x="{}" y="{}" text-anchor="middle" font-size="{}" font-weight="{}" '
        'fill="currentColor">{}</text>',
        label.x, label.y, label.size, weight, label.text,
    )  # fmt: skip


def _legend(
    sheet: LightSheet, course: Sequence[SunThen], ident: str
) -> Iterator[tuple[SafeString, str]]:
    """Samples, 28 wide and centred on a line, and what each means."""
    if course:
        yield _sample(SUN, "3.5"), _("the sun, with the hours of the clock")
    if any(then.sun.altitude < GOLDEN_TOP for then in course):
        yield _sample(SUN, f"{TICKS}", "1.5 3"), _("golden light")
    if sheet.place.skyline:
        box = '<rect x="0" y="-7" width="28" height="12" fill="url(#{})" stroke="currentColor"/>'
        yield format_html(box, ident), _("the skyline hides the sun")
    for bearing, _length, dashed in _facings(sheet):
        words = _("groups face %(where)s") if dashed else _("the couple face %(where)s")
        where = f"{_(compass_word(bearing))}, {bearing:.0f}°"
        yield _sample("currentColor", "2", "6 4" if dashed else ""), words % {"where": where}


def _sample(colour: str, width: str, dashes: str = "") -> SafeString:
    return format_html(
        '<line x1="0" x2="28" y1="-4" y2="-4" stroke="{}" stroke-width="{}"{}/>',
        colour, width, format_html(' stroke-dasharray="{}"', dashes) if dashes else "",
    )  # fmt: skip


def _rows(legend: Sequence[tuple[SafeString, str]]) -> Iterator[SafeString]:
    room = int((WIDTH - 60) / (SMALL * LETTER))
    for i, (sample, words) in enumerate(legend):
        yield format_html(
            '<g transform="translate(20 {})">{}<text class="legend" x="38" y="0" '
            'fill="currentColor">{}</text></g>',
            round(BOTTOM + LINE * i + 10),
            sample,
            words if len(words) <= room else words[: room - 1].rstrip() + "…",
        )


def _alt(sheet: LightSheet, course: Sequence[SunThen]) -> str:
    """The drawing as one sentence each: the path, then where the sun stands in each block."""
    words = [_("The sun’s path at %(place)s.") % {"place": sheet.place.name}]
    if not course:
        words.append(_("The sun does not rise."))
    else:
        ends = {"first": sun_words(course[0]), "last": sun_words(course[-1])}
        words.append(_("Highest: %(sun)s.") % {"sun": sun_words(sheet.noon)})
        words.append(_("From %(first)s to %(last)s.") % ends)
    words += [
        f"{block_title(lit.block)} {clock(lit.first.at)}: {sun_words(lit.first)}."
        for lit in sheet.blocks
        if lit.block.kind in LETTERED
    ]
    return " ".join(words)
