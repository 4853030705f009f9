"""The day drawn once, as a ribbon of blocks by place over bands of light, for page and paper.

Every label stands whole: inside its block, or on the first free line below it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, timedelta
from itertools import pairwise
from textwrap import wrap

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext
from django.utils.translation import gettext as _

from studio.templatetags.clock import block_title

from .compute.light import light_bands
from .compute.planned import Block, Day, LightSheet
from .compute.values import Place
from .ribbon_scale import (
    BAR,
    HAIR,
    INK,
    LEFT,
    LETTER,
    LINE,
    PINE,
    TOP,
    WIDTH,
    Scale,
    scale_of,
    theirs,
)
from .ribbon_spare import brackets, brackets_svg, height_of, ribbon_words

FILL = {"blue": "#C9D2E0", "day": "#F5EED6", "night": "#AEB6BF"}
# Hatched, so that golden light is told apart in grey too. A page may hold several drawings, and
# no two things of a page have one name.
GOLDEN = (
    '<defs><pattern id="golden-{}" width="7" height="7" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="7" height="7" fill="#F8E7BE"/>'
    '<rect width="3" height="7" fill="#EFCB7E"/></pattern></defs>'
)


@dataclass(frozen=True)
class Drawn:
    """A block on the drawing; `line` 0 writes its label inside, 1 and more below."""

    block: Block
    title: str
    x: float
    end: float
    line: int
    label_x: float


@dataclass(frozen=True)
class Lane:
    """What happens at one place; `second`: by the second photographer alone."""

    place: Place | None
    y: int
    height: int
    drawn: tuple[Drawn, ...]
    second: bool = False

    @property
    def bottom(self) -> int:
        return self.y + self.height


def ribbon_svg(day: Day) -> SafeString:
    """The day as SVG, or nothing where it has no blocks. The table beside it says it in words."""
    blocks = [block for block in day.blocks if block.kind != "travel"]
    if not blocks:
        return SafeString("")
    scale = scale_of(day)
    spare = brackets(day, scale)
    lanes = _lanes(blocks, scale, TOP + height_of(spare))
    lanes += _lanes(theirs(day), scale, lanes[-1].bottom, second=True)
    bottom = lanes[-1].bottom
    right = max([_right_edge(lanes), *(bracket.right for bracket in spare)])
    return format_html(
        '<svg class="ribbon" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-family="Foreday Text, Source Sans 3, sans-serif" '
        'font-size="12">{}{}{}{}{}{}{}{}</svg>',
        ribbon_words(day),
        round(right),
        bottom + 26,
        format_html(GOLDEN, day.brief.key),
        _margin(right, bottom),
        _bands(day, scale, bottom),
        format_html_join("", "{}", ((_lane(lane),) for lane in lanes)),
        _ways(blocks, lanes, scale),
        format_html_join("", "{}", ((_block(d, lane),) for lane in lanes for d in lane.drawn)),
        brackets_svg(spare, lanes[0].y),
        _hours(scale, bottom),
    )


def _light(day: Day) -> LightSheet | None:
    return next((sheet for sheet in day.light if sheet.events), None)


def _lanes(blocks: list[Block], scale: Scale, y: int, second: bool = False) -> list[Lane]:
    lanes: list[Lane] = []
    for place in dict.fromkeys(block.place for block in blocks):
        drawn = _drawn([block for block in blocks if block.place == place], scale)
        lines = max(each.line for each in drawn)
        lanes.append(Lane(place, y, BAR + 16 + LINE * lines, tuple(drawn), second))
        y = lanes[-1].bottom
    return lanes


def _drawn(blocks: list[Block], scale: Scale) -> list[Drawn]:
    """Labels hang deeper the earlier their block is, so that no leader crosses a label."""
    drawn: list[Drawn] = []
    for block in reversed(blocks):
        x, end = scale.x(block.start), max(scale.x(block.end), scale.x(block.start) + 4)
        title = block_title(block)
        label_x, line = x + 8, 0
        if len(title) * LETTER > end - x - 14:
            label_x = x + 4
            under = [d.line for d in drawn if d.line and d.x < label_x + len(title) * LETTER + 6]
            line = 1 + max(under, default=0)
        drawn.insert(0, Drawn(block, title, x, end, line, label_x))
    return drawn


def _right_edge(lanes: list[Lane]) -> float:
    """Labels of the last blocks may stand to the right of the hours."""
    ends = [each.label_x + len(each.title) * LETTER for lane in lanes for each in lane.drawn]
    return max(LEFT + WIDTH + 12, *ends)


def _margin(right: float, bottom: int) -> SafeString:
    """Paper under labels that stand to the right of the hours, for pages that are dark."""
    return format_html(
        '<rect x="{}" y="{}" width="{}" height="{}" fill="#FBF9F4"/>',
        LEFT, TOP, round(right - LEFT, 1), bottom - TOP,
    )  # fmt: skip


def _bands(day: Day, scale: Scale, bottom: int) -> SafeString:
    sheet = _light(day)
    fill = FILL | {"golden": f"url(#golden-{day.brief.key})"}
    lit = light_bands(sheet.place.spot, scale.start, scale.end) if sheet else ()
    bands = [(band.kind, scale.x(band.start), scale.x(band.end)) for band in lit]
    drawn = format_html_join(
        "",
        '<rect x="{}" y="{}" width="{}" height="{}" fill="{}"/>',
        ((x, TOP, round(end - x, 1), bottom - TOP, fill[name]) for name, x, end in bands),
    )
    titles = {
        "golden": _("golden light"),
        "blue": _("blue light"),
        "day": _("day"),
        "night": _("night"),
    }
    fitting = [b for b in bands if b[2] - b[1] > len(titles[b[0]]) * LETTER]
    return drawn + format_html_join(
        "",
        '<text x="{}" y="{}" fill="currentColor">{}</text>',
        ((x + 3, TOP - 8, titles[name]) for name, x, _end in fitting),
    )


def _lane(lane: Lane) -> SafeString:
    name = _("place not said")
    if lane.place:
        name = lane.place.name if lane.place.key else gettext(lane.place.name)
    return format_html(
        '{}<line x1="{}" x2="{}" y1="{}" y2="{}" stroke="{}"/>',
        _beside(lane, name),
        LEFT,
        LEFT + WIDTH,
        lane.bottom,
        lane.bottom,
        HAIR,
    )


def _beside(lane: Lane, name: str) -> SafeString:
    """A name in the margin, on two lines where it is long: a lane is high enough for three."""
    said = [(line, "normal") for line in _lines(name, 2)]
    if lane.second:
        said += [(line, "italic") for line in _lines(_("second photographer"), 1)]
    first = lane.y + (26, 20, 14)[len(said) - 1]
    return format_html_join(
        "",
        '<text x="0" y="{}" fill="currentColor" font-style="{}">{}</text>',
        ((first + 14 * i, style, line) for i, (line, style) in enumerate(said)),
    )


def _lines(name: str, most: int) -> list[str]:
    """As much of a name as the margin has room for."""
    room = int((LEFT - 12) / LETTER)
    return wrap(name, room, max_lines=most, placeholder="…") or [""]


def _ways(blocks: list[Block], lanes: list[Lane], scale: Scale) -> SafeString:
    """Dotted from block to block: the way through the day."""
    middle = {lane.place: lane.y + 8 + BAR // 2 for lane in lanes if not lane.second}
    return format_html_join(
        "",
        '<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="{}" stroke-dasharray="2 3"/>',
        (
            (scale.x(a.end), middle[a.place], scale.x(b.start), middle[b.place], INK)
            for a, b in pairwise(blocks)
        ),
    )


def _block(drawn: Drawn, lane: Lane) -> SafeString:
    y = lane.y + 8
    below = y + BAR + LINE * drawn.line - 3
    leader = format_html(
        '<line x1="{0}" x2="{0}" y1="{1}" y2="{2}" stroke="{3}"/>',
        drawn.x + 0.5, y + BAR, below, PINE,
    )  # fmt: skip
    return format_html(
        '<rect x="{}" y="{}" width="{}" height="{}" fill="#fff" stroke="{}"{}/>{}{}{}'
        '<text x="{}" y="{}" fill="{}">{}</text>',
        drawn.x,
        y,
        round(drawn.end - drawn.x, 1),
        BAR,
        PINE,
        SafeString(' stroke-dasharray="5 3"' if lane.second else ""),
        leader if drawn.line else "",
        _post(drawn.x, y) if drawn.block.fixed else "",
        _under(drawn, below) if drawn.line else "",
        drawn.label_x,
        below if drawn.line else y + 18,
        INK,
        drawn.title,
    )


def _under(drawn: Drawn, below: int) -> SafeString:
    """Paper under a label that hangs below its block, so that no way runs through its letters."""
    return format_html(
        '<rect x="{}" y="{}" width="{}" height="15" fill="#FBF9F4" fill-opacity="0.85"/>',
        drawn.label_x - 2, below - 11, round(len(drawn.title) * LETTER * 0.85 + 4, 1),
    )  # fmt: skip


def _post(x: float, y: int) -> SafeString:
    """A fixed time stands as a post."""
    return format_html(
        '<rect x="{}" y="{}" width="5" height="{}" fill="{}"/>', x - 2, y - 5, BAR + 10, INK
    )


def _hours(scale: Scale, bottom: int) -> SafeString:
    zone, first = scale.start.tzinfo, scale.start.astimezone(UTC)
    hours = int((scale.end.timestamp() - scale.start.timestamp()) // 3600)
    at = [(first + timedelta(hours=i)).astimezone(zone) for i in range(hours + 1)]
    return format_html_join(
        "",
        '<text x="{}" y="{}" text-anchor="middle" fill="currentColor">{}</text>',
        ((scale.x(each), bottom + 18, f"{each:%H}") for each in at),
    )
