"""The ground of a polar plot of the sky: rings, skyline, the sun's course, which way people face.

The middle is overhead, the rim is level, north is up and east at the right, as on a map.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import cos, hypot, radians, sin

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from .compute.light import Skyline
from .compute.light.sun import GOLDEN_TOP
from .compute.planned import SunThen

WIDTH, RIM = 400, 142
MIDDLE_X, MIDDLE_Y = WIDTH / 2, RIM + 42
BOTTOM = MIDDLE_Y + RIM + 40
RINGS = (30, 60)
SUN = "#B5791C"  # 3:1 and more on light and on dark ground
TICKS = 11  # how wide the ticks of golden light are
Point = tuple[float, float]


def spot_of(altitude: float, azimuth: float) -> Point:
    """Where a height and a bearing in degrees stand on the plot."""
    away, turn = RIM * (90 - altitude) / 90, radians(azimuth)
    return MIDDLE_X + away * sin(turn), MIDDLE_Y - away * cos(turn)


def sun_spot(then: SunThen) -> Point:
    return spot_of(then.sun.altitude, then.sun.azimuth)


def dense(points: Sequence[Point]) -> Iterator[Point]:
    """Points along a line no further apart than a few units."""
    for (x, y), (x2, y2) in pairwise(points):
        steps = max(1, int(hypot(x2 - x, y2 - y) // 4))
        yield from ((x + (x2 - x) * i / steps, y + (y2 - y) * i / steps) for i in range(steps + 1))


def hatch(ident: str) -> SafeString:
    return format_html(
        '<defs><pattern id="{}" width="6" height="6" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><line x1="0" x2="0" y1="0" y2="6" stroke="currentColor" '
        'stroke-width="2" stroke-opacity=".55"/></pattern></defs>',
        ident,
    )


def rings() -> SafeString:
    """Level, 30 and 60 degrees, and the cross of the four winds."""
    circles = format_html_join(
        "",
        '<circle cx="{}" cy="{}" r="{}" fill="none" stroke="currentColor" stroke-opacity="{}"/>',
        (
            (MIDDLE_X, MIDDLE_Y, round(RIM * (90 - height) / 90, 1), 0.3 if height else 1)
            for height in (0, *RINGS)
        ),
    )
    return circles + format_html_join(
        "",
        '<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="currentColor" stroke-opacity=".2"/>',
        ((*_short(spot_of(0, turn)), *_short(spot_of(0, turn + 180))) for turn in (0, 90)),
    )


def skyline_shape(points: tuple[tuple[float, float], ...], ident: str) -> SafeString:
    """What hides the sun, hatched from the rim to its height."""
    if not points:
        return SafeString("")
    skyline, turns = Skyline.noted(points), range(0, 362, 2)
    tops = [spot_of(max(0.0, skyline.height(turn)), turn) for turn in turns]
    rim = [spot_of(0, turn) for turn in reversed(turns)]
    return format_html(
        '<path d="{} Z" fill="url(#{})" stroke="none"/><path d="{}" fill="none" '
        'stroke="currentColor" stroke-opacity=".7"/>',
        _path([*tops, *rim]), ident, _path(tops),
    )  # fmt: skip


def course_lines(course: Sequence[SunThen]) -> SafeString:
    """Thick where the sun is on the place, ticked where it is golden, dotted behind the skyline."""
    drawn = SafeString("")
    for golden, line in _runs(course, lambda then: then.sun.altitude < GOLDEN_TOP):
        if golden:
            drawn += format_html(
                '<path d="{}" fill="none" stroke="{}" stroke-width="11" '
                'stroke-dasharray="1.5 3"/>', _path(line), SUN,
            )  # fmt: skip
    for clear, line in _runs(course, lambda then: then.clear):
        style = 'stroke-width="3.5"' if clear else 'stroke-width="1.2" stroke-dasharray="2 3"'
        colour = SUN if clear else "currentColor"
        drawn += format_html(
            '<path class="course" d="{}" fill="none" stroke="{}" {}/>',
            _path(line), colour, SafeString(style),
        )  # fmt: skip
    return drawn + format_html_join(
        "",
        '<circle cx="{}" cy="{}" r="3" fill="{}"/>',
        ((*_short(sun_spot(t)), SUN) for t in course if t.at.minute == 0),
    )


def _runs(course: Sequence[SunThen], what: object) -> Iterator[tuple[bool, list[Point]]]:
    """Stretches of one kind, each going on to where the next begins."""
    steps = list(pairwise(course))
    for kind, run in groupby(steps, key=lambda step: what(step[0])):
        run = list(run)
        yield kind, [sun_spot(run[0][0]), *(sun_spot(later) for _, later in run)]


def arrow(bearing: float, length: float) -> list[Point]:
    """From the middle the way people face, `length` as a share of the rim."""
    return [spot_of(90, 0), spot_of(90 - 90 * length, bearing)]


def arrow_line(points: list[Point], dashed: bool) -> SafeString:
    (x, y), (x2, y2) = points
    length = hypot(x2 - x, y2 - y)
    along, across = ((x2 - x) / length, (y2 - y) / length), (-(y2 - y) / length, (x2 - x) / length)
    back = x2 - 11 * along[0], y2 - 11 * along[1]
    sides = [(back[0] + s * across[0], back[1] + s * across[1]) for s in (5, -5)]
    return format_html(
        '<path d="{}" fill="none" stroke="currentColor" stroke-width="2"{}/>'
        '<path d="{} Z" fill="currentColor"/>',
        _path([points[0], back]),
        SafeString(' stroke-dasharray="6 4"' if dashed else ""),
        _path([points[1], *sides]),
    )


def _path(points: Sequence[Point]) -> str:
    return "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in points)


def _short(point: Point) -> Point:
    return round(point[0], 1), round(point[1], 1)
