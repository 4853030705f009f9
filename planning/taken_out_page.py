"""What is kept of what left the answers, in words, and what becomes of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.models import Day, Group, Place, Wedding
from studio.templatetags.clock import clock, minutes

from .models import BlockDecision, Drive, GroupRule
from .taken_out import ANCHORS, lost_blocks, name_of, name_of_row, rows_taken_out


@dataclass(frozen=True)
class Kept:
    """`which` names it for the buttons; `goes_to` is the day on which a time is now."""

    kind: str
    which: str
    name: str | date
    held: tuple[str, ...]
    at: datetime | None = None
    goes_to: Day | None = None


def kept_of_taken_out(wedding: Wedding) -> list[Kept]:
    rows = [
        Kept(kind, row.key, name_of_row(row), tuple(HELD[kind](row)), row.removed_at)
        for kind, row in rows_taken_out(wedding)
    ]
    blocks = [
        Kept(
            "time",
            str(decision.pk),
            name_of(decision, moment),
            tuple(_of_block(decision)),
            goes_to=moment.day if moment else None,
        )
        for decision, moment in lost_blocks(wedding)
    ]
    return rows + blocks


@transaction.atomic
def act(wedding: Wedding, do: str) -> str:
    """Do what the pressed button says ("let-go:place:KEY") and say what was done."""
    verb, _colon, rest = do.partition(":")
    kind, _colon, which = rest.partition(":")
    wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
    found = {("time", str(d.pk)): (d, m) for d, m in lost_blocks(wedding)}
    found |= {(kind, row.key): (row, None) for kind, row in rows_taken_out(wedding)}
    if verb not in {"bring-back", "let-go"} or (kind, which) not in found:
        return _("Nothing was changed: it is settled already.")
    row, moment = found[kind, which]
    if verb == "let-go":
        row.delete()
        return _("Removed, with what was settled about it.")
    if kind in ANCHORS:
        row.bring_back()
        return _("Back in the answers, with what was settled about it. The couple see it again.")
    if moment is None or _is_settled(moment.day, row.key):
        return _("Nothing was changed: something is settled about it on that day.")
    row.day = moment.day
    row.save(update_fields=["day"])
    return _("What was settled goes with it to the other day.")


def _is_settled(day: Day, key: str) -> bool:
    return day.block_decisions.filter(key=key).exists()


def _of_day(day: Day) -> Iterator[str]:
    hours = getattr(day, "hours", None)
    if hours and hours.starts and hours.ends:
        words = _("Hours: %(from)s–%(until)s")
        yield words % {"from": clock(hours.starts), "until": clock(hours.ends)}
    if count := day.block_decisions.count():
        words = ngettext("%(count)s block settled", "%(count)s blocks settled", count)
        yield words % {"count": count}
    decision = getattr(day, "decision", None)
    if decision and decision.order:
        yield _("The order of its blocks")


def _of_place(place: Place) -> Iterator[str]:
    spot = getattr(place, "spot", None)
    if spot:
        yield _("Where it is on the map: %(spot)s") % {"spot": spot}
    if spot and not (spot.ceremony_facing is None and spot.group_facing is None):
        yield _("Which way people face there")
    if spot and spot.skyline:
        yield _("Its skyline")
    from_or_to = Q(origin=place) | Q(destination=place)
    if count := Drive.with_removed.filter(from_or_to).count():
        words = ngettext("%(count)s drive timed", "%(count)s drives timed", count)
        yield words % {"count": count}
    there = Q(place=place) | Q(wet_place=place)
    if count := BlockDecision.objects.filter(there).count():
        words = ngettext("%(count)s block put there", "%(count)s blocks put there", count)
        yield words % {"count": count}
    decisions = getattr(place.wedding, "decisions", None)
    if decisions and decisions.visit_place_id == place.pk:
        yield _("The venue visit")


def _of_group(group: Group) -> Iterator[str]:
    decision = getattr(group, "decision", None)
    if decision and decision.minutes:
        yield minutes(float(decision.minutes))
    if decision and decision.left_out:
        yield _("Left out")
    rules = GroupRule.with_removed.filter(Q(one=group) | Q(other=group))
    yield from map(str, rules.select_related("one", "other"))


def _of_block(block: BlockDecision) -> Iterator[str]:
    if block.likely is not None:
        yield minutes(block.likely)
    if block.at:
        yield _("Fixed at %(at)s") % {"at": clock(block.at)}
    if block.place:
        yield str(block.place)
    if block.who:
        yield block.get_who_display()
    if block.left_out:
        yield _("Left out")


HELD: dict[str, Callable[..., Iterator[str]]] = {
    "day": _of_day,
    "place": _of_place,
    "group": _of_group,
}
