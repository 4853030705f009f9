"""Kinds of day: the built-in ones and the studio's own, copied, chosen, and who uses them."""

from __future__ import annotations

from dataclasses import dataclass

from django.db import transaction
from django.db.models import Count
from django.utils.translation import gettext as _

from intake.models import Wedding

from .brief_kinds import own_blocks
from .compute.blocks import NOTHING, STYLES
from .compute.template import Template
from .models import Decisions, KindBlock, KindOfDay, style_choices

LONGEST_TITLE = 80


@dataclass(frozen=True)
class Listed:
    key: str
    title: str
    blocks: int
    weddings: int


def listed_kinds() -> tuple[list[Listed], list[Listed]]:
    """The built-in kinds and the studio's own, each with how many blocks and weddings it has."""
    used = dict(Decisions.objects.order_by().values_list("style").annotate(Count("pk")))
    built_in = [
        Listed(key, _(style.title), len(style.blocks), used.get(key, 0))
        for key, style in STYLES.items()
    ]
    own = [
        Listed(kind.key, kind.title, kind.count, used.get(kind.key, 0))
        for kind in KindOfDay.objects.annotate(count=Count("blocks"))
    ]
    return built_in, own


def kind_choices() -> list[tuple[str, str]]:
    """What a booking chooses from: the studio's own after the built-in ones."""
    return [*style_choices(), *KindOfDay.objects.values_list("key", "title")]


def weddings_of(key: str) -> list[Wedding]:
    """The weddings that are laid out as this kind of day."""
    weddings = Wedding.objects.filter(decisions__style=key)
    return list(weddings.prefetch_related("partners", "days"))


@transaction.atomic
def copy_kind(key: str, new_key: str) -> KindOfDay:
    """The studio's own copy of a kind; a second click finds the copy that the first one made."""
    own = KindOfDay.objects.filter(key=key).first()
    title = own.title if own else _(STYLES[key].title)
    values = {
        "title": (_("%(title)s, our own") % {"title": title})[:LONGEST_TITLE],
        "position": KindOfDay.objects.count(),
    }
    copy, is_new = KindOfDay.objects.get_or_create(key=new_key, defaults=values)
    if is_new:
        blocks = own_blocks(key) if own else STYLES[key].blocks
        rows = [_as_row(copy, position, block) for position, block in enumerate(blocks)]
        KindBlock.objects.bulk_create(rows)
    return copy


def _as_row(kind: KindOfDay, position: int, block: Template) -> KindBlock:
    """A row that says what a block says; its key keeps what a day has settled about the block."""
    delay, is_out = block.delay or (None,) * 3, block.wet == NOTHING
    wet = (None,) * 3 if is_out or not block.wet else block.wet
    return KindBlock(
        kind_of_day=kind, key=block.key or block.kind, position=position, title=_(block.title),
        kind=block.kind, least=block.minutes[0], likely=block.minutes[1], most=block.minutes[2],
        use=block.use, moment=block.moment, leads=block.leads, fills=block.fills, once=block.once,
        short=block.short, droppable=block.droppable, importance=block.importance,
        delay_least=delay[0], delay_likely=delay[1], delay_most=delay[2], movable=block.movable,
        wet_least=wet[0], wet_likely=wet[1], wet_most=wet[2], wet_left_out=is_out,
    )  # fmt: skip
