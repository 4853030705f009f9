"""What a block of a template says beside its minutes, in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.models import MomentKind

from .compute.blocks import KINDS, NOTHING
from .compute.template import Minutes, Template

PLACES = {
    "previous": gettext_lazy("where the block before it is"),
    "next": gettext_lazy("where the block after it is"),
    "getting_ready": gettext_lazy("where they get ready"),
    "ceremony": gettext_lazy("where the ceremony is"),
    "groups": gettext_lazy("where the groups are"),
    "portraits": gettext_lazy("where the portraits are"),
    "meal": gettext_lazy("where drinks and meal are"),
    "party": gettext_lazy("where the party is"),
    "home": gettext_lazy("at home"),
}
USUAL = 5  # how much a block matters where nobody says


def words_of(block: Template) -> list[str]:
    """Short phrases, each of its own; nothing for what is usual."""
    return [words for words in (*_when(block), *_late(block), *_wet(block)) if words]


def three(minutes: Minutes) -> str:
    least, likely, most = minutes
    words = {"least": least, "likely": likely, "most": most}
    return _("%(least)s to %(most)s, likely %(likely)s min") % words


def _when(block: Template) -> tuple[str, ...]:
    moment = dict(MomentKind.choices).get(block.moment)
    led_to = KINDS.get(block.leads)
    return (
        _("the couple’s time for “%(moment)s”") % {"moment": moment} if moment else "",
        _("ends when “%(block)s” begins") % {"block": _(led_to)} if led_to else "",
        _("takes what time is left") if block.fills else "",
        _("on the main day only") if block.once else "",
    )


def _late(block: Template) -> tuple[str, ...]:
    return (
        _("short form %(minutes)s min") % {"minutes": block.short} if block.short else "",
        _("may be dropped") if block.droppable else "",
        _("matters %(weight)s of 10") % {"weight": block.importance}
        if block.importance != USUAL
        else "",
        _("begins late by %(minutes)s") % {"minutes": three(block.delay)} if block.delay else "",
        "" if block.movable else _("cannot be moved"),
    )


def _wet(block: Template) -> tuple[str, ...]:
    if block.wet == NOTHING:
        return (_("left out when it rains"),)
    return (_("in the rain %(minutes)s") % {"minutes": three(block.wet)} if block.wet else "",)
