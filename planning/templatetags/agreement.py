"""What pages and papers say of the agreed summary.

`agreement_note` is how the couple's list of steps tells of it: intake imports nothing of
planning, and the template, which stands outside both, asks for the one line itself.
"""

from __future__ import annotations

from datetime import datetime

from django import template
from django.utils.translation import gettext

from intake.models import MomentKind, Wedding
from planning import agreed_words, change_words, expect_words
from planning.compute.agreed import Agreed, AgreedDay, AgreedLight, AgreedTime
from studio.templatetags.clock import clock

register = template.Library()
register.filter("span", agreed_words.span)
register.filter("about", agreed_words.about)
register.filter("people_of", agreed_words.people_of)
register.filter("iso_date", agreed_words.iso_date)
register.filter("changed", change_words.changed)
register.filter("sure_words", expect_words.sure_words)


@register.filter
def agreed_times(said: Agreed, day: AgreedDay) -> list[AgreedTime]:
    return said.of(day)


@register.filter
def agreed_lights(said: Agreed, day: AgreedDay) -> list[AgreedLight]:
    return said.lights_of(day)


@register.filter
def title_words(text: str) -> str:
    """The title of a block: the couple's own words, or ours in the reader's language."""
    return gettext(text) if text else ""


@register.filter
def iso_clock(text: str) -> str:
    return clock(datetime.fromisoformat(text))


@register.filter
def moment_kind(kind: str) -> str:
    return str(dict(MomentKind.choices).get(kind, ""))


@register.inclusion_tag("intake/_agreed_note.html")
def agreement_note(wedding: Wedding) -> dict:
    newest = wedding.agreements.defer("snapshot").first()
    return {"wedding": wedding, "agreement": newest}
