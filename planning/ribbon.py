"""The day drawn once, as a ribbon of blocks by place over bands of light, for page and paper.

Every label stands whole: inside its block, or on the first free line below it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from studio.templatetags.clock import block_title

from .compute.light import light_bands
from .compute.planned import Block, Day, LightSheet
from .compute.values import Place

LEFT, WIDTH, TOP = 150, 900, 24
BAR, LINE = 28, 17  # heights of a block and of a line of labels
LETTER = 6.4  # a generous mean width of a letter at 12 px
FILL = {"blue": "#C9D2E0", "golden": "url(#golden)", "day": "#F5EED6", "night": "#AEB6BF"}
# Hatched, so that golden light is told apart in grey too.
GOLDEN = SafeString(
    '<defs><pattern id="golden" width="7" height="7" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="7" height="7" fill="#F8E7BE"/>'
    '<rect width="3" height="7" fill="#EFCB7E"/></pattern></defs>'
)
INK, PINE, HAIR = "#22262B", "#1E5B4F", "#DAD5CA"


@dataclass(frozen=True)
class Scale:
    start: datetime
    end: datetime

    def x(self, at: datetime) -> float:
        # By instants: two times of one zone, subtracted, would forget a clock change.
        start, end = self.start.timestamp(), self.end.timestamp()
        share = (at.timestamp() - start) / (end - start)
        return round(LEFT + WIDTH * min(max(share, 0), 1), 1)


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
    place: Place | None
    y: int
    height: int
    drawn: tuple[Drawn, ...]


def ribbon_svg(day: Day) -> SafeString:
    """The day as SVG, or nothing where it has no blocks. The table beside it says it in words."""
    blocks = [block for block in day.blocks if block.kind != "travel"]
    if not blocks:
        return SafeString("")
    scale = _scale(day)
    lanes = _lanes(blocks, scale)
    bottom = lanes[-1].y + lanes[-1].height
    return format_html(
        '<svg class="ribbon" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-family="Foreday Text, Source Sans 3, sans-serif" '
        'font-size="12">{}{}{}{}{}{}{}</svg>',
        _("The day’s blocks by place over bands of light; the table below says the same."),
        round(_right_edge(lanes)),
        bottom + 26,
        GOLDEN,
        _margin(_right_edge(lanes), bottom),
        _bands(_light(day), scale, bottom),
        format_html_join("", "{}", ((_lane(lane),) for lane in lanes)),
        _ways(blocks, lanes, scale),
        format_html_join("", "{}", ((_block(d, lane.y),) for lane in lanes for d in lane.drawn)),
        _hours(scale, bottom),
    )


def _scale(day: Day) -> Scale:
    hour = timedelta(hours=1)
    start = day.blocks[0].start.replace(minute=0, second=0)
    end = (max(b.end for b in day.blocks) + hour).replace(minute=0, second=0)
    return Scale(start, end)


def _light(day: Day) -> LightSheet | None:
    return next((sheet for sheet in day.light if sheet.events), None)


def _lanes(blocks: list[Block], scale: Scale) -> list[Lane]:
    lanes: list[Lane] = []
    y = TOP
    for place in dict.fromkeys(block.place for block in blocks):
        drawn = _drawn([block for block in blocks if block.place == place], scale)
        lines = max(each.line for each in drawn)
        lanes.append(Lane(place, y, BAR + 16 + LINE * lines, tuple(drawn)))
        y += lanes[-1].height
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


def _bands(sheet: LightSheet | None, scale: Scale, bottom: int) -> SafeString:
    lit = light_bands(sheet.place.spot, scale.start, scale.end) if sheet else ()
    bands = [(band.kind, scale.x(band.start), scale.x(band.end)) for band in lit]
    drawn = format_html_join(
        "",
        '<rect x="{}" y="{}" width="{}" height="{}" fill="{}"/>',
        ((x, TOP, round(end - x, 1), bottom - TOP, FILL[name]) for name, x, end in bands),
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
    name = lane.place.name if lane.place else _("place not said")
    room = int((LEFT - 12) / LETTER)
    return format_html(
        '<text x="0" y="{}" fill="currentColor">{}</text>'
        '<line x1="{}" x2="{}" y1="{}" y2="{}" stroke="{}"/>',
        lane.y + 26,
        name if len(name) <= room else name[: room - 1].rstrip() + "…",
        LEFT,
        LEFT + WIDTH,
        lane.y + lane.height,
        lane.y + lane.height,
        HAIR,
    )


def _ways(blocks: list[Block], lanes: list[Lane], scale: Scale) -> SafeString:
    """Dotted from block to block: the way through the day."""
    middle = {lane.place: lane.y + 8 + BAR // 2 for lane in lanes}
    return format_html_join(
        "",
        '<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="{}" stroke-dasharray="2 3"/>',
        (
            (scale.x(a.end), middle[a.place], scale.x(b.start), middle[b.place], INK)
            for a, b in pairwise(blocks)
        ),
    )


def _block(drawn: Drawn, lane_y: int) -> SafeString:
    y = lane_y + 8
    below = y + BAR + LINE * drawn.line - 3
    leader = format_html(
        '<line x1="{0}" x2="{0}" y1="{1}" y2="{2}" stroke="{3}"/>',
        drawn.x + 0.5, y + BAR, below, PINE,
    )  # fmt: skip
    return format_html(
        '<rect x="{}" y="{}" width="{}" height="{}" fill="#fff" stroke="{}"/>{}{}'
        '<text x="{}" y="{}" fill="{}">{}</text>',
        drawn.x,
        y,
        round(drawn.end - drawn.x, 1),
        BAR,
        PINE,
        leader if drawn.line else "",
        _post(drawn.x, y) if drawn.block.fixed else "",
        drawn.label_x,
        below if drawn.line else y + 18,
        INK,
        drawn.title,
    )


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
