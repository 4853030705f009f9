"""The day drawn once, as a ribbon of blocks by place over bands of light, for page and paper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from studio.templatetags.clock import block_title

from .compute.values import Block, Day, LightSheet

LEFT, WIDTH, ROW, TOP = 150, 900, 44, 26
LETTER = 6.6  # mean width of a letter at 12 px
BANDS = (
    ("blue", "blue_morning_start", "blue_morning_end"),
    ("golden", "golden_morning_start", "golden_morning_end"),
    ("day", "golden_morning_end", "golden_evening_start"),
    ("golden", "golden_evening_start", "golden_evening_end"),
    ("blue", "blue_evening_start", "blue_evening_end"),
)
FILL = {"blue": "#C9D2E0", "golden": "#EFCB7E", "day": "#F5EED6", "night": "#848E99"}


@dataclass(frozen=True)
class Scale:
    start: datetime
    end: datetime

    def x(self, at: datetime) -> float:
        share = (at - self.start) / (self.end - self.start)
        return round(LEFT + WIDTH * min(max(share, 0), 1), 1)


def ribbon_svg(day: Day) -> SafeString:
    """The day as SVG, or nothing where it has no blocks. The table beside it says it in words."""
    blocks = [block for block in day.blocks if block.kind != "travel"]
    if not blocks:
        return SafeString("")
    scale = _scale(day)
    rows = list(dict.fromkeys(block.place for block in blocks))
    height = TOP + ROW * len(rows)
    return format_html(
        '<svg class="ribbon" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-family="Foreday Text, Source Sans 3, sans-serif" '
        'font-size="12">{}{}{}{}{}</svg>',
        _("The day’s blocks by place over bands of light; the table below says the same."),
        LEFT + WIDTH + 10,
        height + 28,
        _bands(day, scale, height),
        _rows(rows),
        _drives(blocks, rows, scale),
        _blocks(blocks, rows, scale),
        _hours(scale, height),
    )


def _scale(day: Day) -> Scale:
    hour = timedelta(hours=1)
    start = day.blocks[0].start.replace(minute=0, second=0)
    end = (max(b.end for b in day.blocks) + hour).replace(minute=0, second=0)
    sunset = _light(day) and _light(day).first("blue_evening_end")
    if sunset and sunset.at and end < sunset.at < end + 3 * hour:
        end = sunset.at.replace(minute=0, second=0) + hour
    return Scale(start, end)


def _light(day: Day) -> LightSheet | None:
    return next((sheet for sheet in day.light if sheet.events), None)


def _bands(day: Day, scale: Scale, height: int) -> SafeString:
    sheet = _light(day)
    if sheet is None:
        return format_html(
            '<rect x="{}" y="{}" width="{}" height="{}" fill="none" stroke="#DAD5CA"/>',
            LEFT, TOP, WIDTH, height - TOP,
        )  # fmt: skip
    night = format_html(
        '<rect x="{}" y="{}" width="{}" height="{}" fill="{}"/>',
        LEFT, TOP, WIDTH, height - TOP, FILL["night"],
    )  # fmt: skip
    bands = [
        (name, scale.x(first.at), scale.x(last.at))
        for name, start, end in BANDS
        if (first := sheet.first(start)) and (last := sheet.first(end)) and first.at and last.at
    ]
    drawn = format_html_join(
        "",
        '<rect x="{}" y="{}" width="{}" height="{}" fill="{}"/>',
        ((x, TOP, end - x, height - TOP, FILL[name]) for name, x, end in bands if end > x),
    )
    titles = {"golden": _("golden light"), "blue": _("blue light"), "day": _("day")}
    labels = format_html_join(
        "",
        '<text x="{}" y="{}" fill="currentColor">{}</text>',
        (
            (x + 3, TOP - 8, titles[name])
            for name, x, end in bands
            if end - x > len(titles[name]) * LETTER
        ),
    )
    return night + drawn + labels


def _rows(rows: list) -> SafeString:
    return format_html_join(
        "",
        '<text x="0" y="{}" fill="currentColor">{}</text>'
        '<line x1="{}" x2="{}" y1="{}" y2="{}" stroke="#DAD5CA"/>',
        (
            (
                TOP + ROW * i + 27,
                _shorten(place.name if place else _("place not said"), LEFT - 10),
                LEFT,
                LEFT + WIDTH,
                TOP + ROW * (i + 1),
                TOP + ROW * (i + 1),
            )
            for i, place in enumerate(rows)
        ),
    )


def _shorten(text: str, width: float) -> str:
    room = int(width / LETTER)
    return text if len(text) <= room else text[: room - 1].rstrip() + "…"


def _y(block: Block, rows: list) -> int:
    return TOP + ROW * rows.index(block.place) + 8


def _drives(blocks: list[Block], rows: list, scale: Scale) -> SafeString:
    pairs = zip(blocks, blocks[1:], strict=False)
    return format_html_join(
        "",
        '<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="#22262B" stroke-dasharray="2 3"/>',
        ((scale.x(a.end), _y(a, rows) + 14, scale.x(b.start), _y(b, rows) + 14) for a, b in pairs),
    )


def _blocks(blocks: list[Block], rows: list, scale: Scale) -> SafeString:
    drawn = []
    for block in blocks:
        x, end, y = scale.x(block.start), scale.x(block.end), _y(block, rows)
        title = block_title(block)
        drawn.append(
            format_html(
                '<rect x="{}" y="{}" width="{}" height="28" fill="#fff" stroke="#1E5B4F">'
                "<title>{} {}</title></rect>{}{}",
                x,
                y,
                max(end - x, 3),
                f"{block.start:%H:%M}",
                title,
                _post(x, y) if block.fixed else "",
                _label(title, x, end, y),
            )
        )
    return mark_safe("".join(drawn))  # noqa: S308 - every piece came from format_html


def _post(x: float, y: int) -> SafeString:
    """A fixed time stands as a post."""
    return format_html('<rect x="{}" y="{}" width="5" height="40" fill="#22262B"/>', x - 2, y - 6)


def _label(title: str, x: float, end: float, y: int) -> SafeString:
    """The title inside its block where it fits; the table names the others."""
    if len(title) * LETTER > end - x - 12:
        return SafeString("")
    return format_html('<text x="{}" y="{}" fill="#22262B">{}</text>', x + 8, y + 18, title)


def _hours(scale: Scale, height: int) -> SafeString:
    hours = int((scale.end - scale.start) / timedelta(hours=1))
    at = [scale.start + timedelta(hours=i) for i in range(hours + 1)]
    return format_html_join(
        "",
        '<text x="{}" y="{}" text-anchor="middle" fill="currentColor">{}</text>',
        ((scale.x(each), height + 18, f"{each:%H}") for each in at),
    )
