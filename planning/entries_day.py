"""The day itself in the calendar: when to leave home, and every block of the photographer's."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from django.utils.translation import gettext, ngettext

from studio.templatetags.clock import block_title

from .compute.planned import Block, Plan
from .compute.settled import SECOND
from .entry import Entry, away, in_charge, in_charge_line, named

# Leaving takes no time, but some readers stretch an entry without a length to an hour.
LEAVING_LENGTH = timedelta(minutes=5)
LEAVING_ALARMS = (timedelta(minutes=-30), timedelta())


def leaving(plan: Plan) -> Iterator[Entry]:
    for day in plan.days:
        if day.leave_home is not None:
            yield Entry(
                key=f"leave/{day.brief.key}",
                summary=named(plan, gettext("Leave home")),
                start=day.leave_home,
                end=day.leave_home + LEAVING_LENGTH,
                place=next((block.place for block in day.blocks if away(block.place)), None),
                alarms=LEAVING_ALARMS,
            )


def blocks(plan: Plan) -> Iterator[Entry]:
    for day in plan.days:
        yield from (_block(plan, block) for block in day.blocks if _is_hers(block))


def _is_hers(block: Block) -> bool:
    """A drive that nobody has timed has no length to write; the second photographer has their
    own sheet."""
    return not block.untimed and block.who != SECOND


def _block(plan: Plan, block: Block) -> Entry:
    """Without the block's own note, which is somebody's words and may be private."""
    return Entry(
        key=f"block/{block.key}",
        summary=named(plan, block_title(block) or gettext("Something else")),
        start=block.start,
        end=block.end,
        place=away(block.place),
        lines=(*_notes(plan, block), *in_charge_line(block.place)),
        contact=in_charge(block.place),
    )


def _notes(plan: Plan, block: Block) -> Iterator[str]:
    if block.fixed:
        yield gettext("Fixed time")
    if block.kind == "groups" and plan.turns:
        count = len(plan.turns)
        words = ngettext("%(n)s group photograph", "%(n)s group photographs", count)
        yield words % {"n": count}
