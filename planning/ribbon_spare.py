"""The time to spare, as brackets above the blocks: from one fixed time to the next."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.html import format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.templatetags.clock import block_title

from .compute.planned import Day, Slack
from .ribbon_scale import INK, LETTER, LINE, Scale


@dataclass(frozen=True)
class Bracket:
    """Slack between two fixed times; `line` 0 writes its label on it, 1 and more higher."""

    x: float
    end: float
    label: str
    label_x: float
    line: int

    @property
    def right(self) -> float:
        return self.label_x + len(self.label) * LETTER


def ribbon_words(day: Day) -> str:
    """What the ribbon shows, for those who do not see it."""
    words = [_("The day’s blocks by place over bands of light; the table below says the same.")]
    for spare in _spare(day):
        told = ngettext(
            "%(n)s minute to spare before %(block)s.",
            "%(n)s minutes to spare before %(block)s.",
            spare.minutes,
        )
        words.append(told % {"n": spare.minutes, "block": block_title(spare.before)})
    return " ".join(words)


def brackets(day: Day, scale: Scale) -> list[Bracket]:
    """Labels that are wider than their bracket stand above those that follow."""
    drawn: list[Bracket] = []
    for spare in reversed(_spare(day)):
        x, end = scale.x(spare.after.start), scale.x(spare.before.start)
        label = _("%(n)s to spare") % {"n": spare.minutes}
        width, line = len(label) * LETTER, 0
        label_x = round((x + end - width) / 2, 1)
        if width > end - x:
            label_x = x
            under = [each.line for each in drawn if each.label_x < x + width + 6]
            line = 1 + max(under, default=-1)
        drawn.insert(0, Bracket(x, end, label, label_x, line))
    return drawn


def height_of(drawn: list[Bracket]) -> int:
    return 14 + LINE * (1 + max(each.line for each in drawn)) if drawn else 0


def brackets_svg(drawn: list[Bracket], bottom: int) -> SafeString:
    return format_html_join(
        "",
        '<path class="spare" d="M{} {}v-5H{}v5" fill="none" stroke="{}"/>'
        '<text x="{}" y="{}" fill="{}">{}</text>',
        (
            (b.x + 1, bottom, b.end - 1, INK, b.label_x, bottom - 9 - LINE * b.line, INK, b.label)
            for b in drawn
        ),
    )


def _spare(day: Day) -> list[Slack]:
    """Where time is short nothing is to spare: the verdict says it."""
    return [slack for slack in day.slack if slack.minutes >= 0]
