"""Who waits, photograph by photograph, as a drawing: people down, minutes across."""

from __future__ import annotations

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from .compute.expectations import Wait

LEFT, WIDTH, ROW = 190, 620, 22
LETTER = 6.6
MOST = 80  # people; beyond it nobody reads the drawing


def waiting_svg(waits: list[Wait], total_minutes: float) -> SafeString:
    """A bar for each person: solid in a photograph, hollow while waiting."""
    if not waits or not total_minutes:
        return SafeString("")
    shown = waits[:MOST]
    return format_html(
        '<svg class="waiting" role="img" aria-label="{}" viewBox="0 0 {} {}" '
        'xmlns="http://www.w3.org/2000/svg" font-size="13">{}</svg>',
        _("Each person’s waiting as a bar; the table above says who is free after which group."),
        LEFT + WIDTH + 60,
        ROW * len(shown) + 4,
        format_html_join("", "{}", ((_row(i, w, total_minutes),) for i, w in enumerate(shown))),
    )


def _row(i: int, wait: Wait, total: float) -> SafeString:
    y = ROW * i + 4
    room = int((LEFT - 10) / LETTER)
    name = wait.name if len(wait.name) <= room else wait.name[: room - 1] + "…"
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
