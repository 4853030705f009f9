"""How many group photographs, and how long they take: said by the page, and live by tally.js."""

from __future__ import annotations

import json

from django import template
from django.forms.utils import flatatt
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.words import how_long

register = template.Library()
CROWDED = 8  # groups; common practice, no source
# One number for each kind of plural that a language offered has (CLDR: one, few, many, other).
SAMPLES = (1, 2, 5)


@register.simple_tag(takes_context=True)
def group_count(context: template.Context, sizes: list[int], crowded: bool = False) -> str:
    """The groups in words; with `crowded`, with a word when they are more than a day holds."""
    told = said(len(sizes), how_long(context["studio"].minutes_for(sizes)))
    return too_many(told) if crowded and len(sizes) > CROWDED else told


def said(count: int, time: str, shown: str = "") -> str:
    words = ngettext(
        "%(n)s group, about %(time)s",
        "%(n)s groups, about %(time)s in all, and the walking in between",
        count,
    )
    return words % {"n": shown or count, "time": time}


def too_many(told: str) -> str:
    words = _(
        "%(told)s. That is more than most days have room for: say below which would be nice "
        "to have."
    )
    return words % {"told": told}


@register.simple_tag
def group_words() -> SafeString:
    """The same words with their places left open, as attributes that tally.js reads."""
    groups = {n: said(n, "{time}", shown="{n}") for n in SAMPLES}
    minutes = {n: how_long(n, shown="{n}") for n in SAMPLES}
    return flatatt(
        {
            "data-groups": json.dumps(groups, ensure_ascii=False),
            "data-minutes": json.dumps(minutes, ensure_ascii=False),
            "data-room": too_many("{told}"),
            "data-crowded": CROWDED,
        }
    )
