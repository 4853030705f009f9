"""The crossing of the studio's own kinds of day: rows become the blocks that lay a day out."""

from __future__ import annotations

from .compute.blocks import NOTHING
from .compute.template import Minutes, Template
from .models import KindBlock


def own_blocks(style: str) -> tuple[Template, ...]:
    """The blocks of one of the studio's own kinds of day; none where it is built in, or gone."""
    rows = KindBlock.objects.filter(kind_of_day__key=style)
    return tuple(as_template(row) for row in rows)


def blocks_of_kinds() -> dict[str, tuple[Template, ...]]:
    """The blocks of all of them, by the kind's key."""
    kinds: dict[str, list[Template]] = {}
    for row in KindBlock.objects.select_related("kind_of_day"):
        kinds.setdefault(row.kind_of_day.key, []).append(as_template(row))
    return {key: tuple(blocks) for key, blocks in kinds.items()}


def as_template(row: KindBlock) -> Template:
    wet = _minutes(row.wet_least, row.wet_likely, row.wet_most)
    return Template(
        row.kind,
        row.title,
        (row.least, row.likely, row.most),
        row.use,
        moment=row.moment,
        fills=row.fills,
        leads=row.leads,
        once=row.once,
        short=row.short,
        droppable=row.droppable,
        importance=row.importance,
        delay=_minutes(row.delay_least, row.delay_likely, row.delay_most),
        movable=row.movable,
        wet=NOTHING if row.wet_left_out else wet,
        key=row.key,
    )


def _minutes(*three: int | None) -> Minutes | None:
    return None if None in three else three
