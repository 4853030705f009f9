"""Who waits, photograph by photograph, as a drawing: people down, minutes across."""

from __future__ import annotations

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from .compute.expectations import Wait
from .compute.planned import Turn

LEFT, WIDTH, ROW, HEAD = 190, 620, 22, 18
LETTER = 6.6
MOST = 80  # people; beyond it nobody reads the drawing


def waiting_svg(waits: list[Wait], turns: tuple[Turn, ...]) -> SafeString:
    """A bar for each person: solid in a photograph, hollow while waiting."""
    total = round(sum(turn.minutes for turn in turns), 1)
    if not waits or not total:
        return SafeString("")
    shown = waits[:MOST]
    return format_html(
        '<svg class="waiting" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-size="13">{}{}</svg>',
        _("Each person’s waiting as a bar; the table above says who is free after which group."),
        LEFT + WIDTH + 60,
        ROW * len(shown) + HEAD + 4,
        _numbers(turns, total, ROW * len(shown) + HEAD),
        format_html_join("", "{}", ((_row(i, w, total),) for i, w in enumerate(shown))),
    )


def _numbers(turns: tuple[Turn, ...], total: float, bottom: int) -> SafeString:
    """The photographs across: a line where each begins, and its number where there is room."""
    drawn, now = [], 0.0
    for turn in turns:
        x, width = LEFT + WIDTH * now / total, WIDTH * turn.minutes / total
        number = turn.number if width > LETTER * (len(str(turn.number)) + 1) else ""
        x, middle = f"{x:.1f}", f"{x + width / 2:.1f}"
        drawn.append((x, HEAD, x, bottom, middle, number))
        now += turn.minutes
    return format_html_join(
        "",
        '<line x1="{}" y1="{}" x2="{}" y2="{}" class="begins"/>'
        '<text x="{}" y="12" text-anchor="middle" class="minute">{}</text>',
        drawn,
    )


def _row(i: int, wait: Wait, total: float) -> SafeString:
    y = ROW * i + HEAD + 4
    room = int((LEFT - 10) / LETTER)
    name = wait.name
    if wait.more:
        name = _("%(count)s more: %(group)s") % {"count": wait.more, "group": wait.where}
    name = name if len(name) <= room else name[: room - 1] + "…"
    bars = format_html_join(
        "",
        '<rect x="{}" y="{}" width="{}" height="{}" class="{}"/>',
        (
            (
                round(LEFT + WIDTH * start / total, 1),
                y + (0 if inside else 4),
                round(WIDTH * (end - start) / total, 1),
                14 if inside else 6,
                "inside" if inside else "waits",
            )
            for start, end, inside in wait.spans
        ),
    )
    return format_html(
        '<text x="0" y="{}">{}</text>{}<text x="{}" y="{}" class="minute">{}</text>',
        y + 12,
        name,
        bars,
        round(LEFT + WIDTH * wait.until / total + 6, 1),
        y + 12,
        f"{round(wait.until)}",
    )
