"""What the ready list and the season know of bags: what is packed, charged and hired."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from datetime import date
from typing import Any

from django.db.models import Count, Max, Min

from intake.models import Day, Wedding

from .brief_bag import counts, is_here
from .compute.bag.items import several
from .compute.bag.need import charging_hours
from .compute.hires import Hire, Use
from .kit_models import BagLine, KitItem

LENT = (KitItem.Owner.HIRED, KitItem.Owner.BORROWED)


def bag_facts(wedding: Wedding, items: list[KitItem]) -> dict[str, Any]:
    """How many things go, how many of them are packed, and how long their batteries charge.

    The wedding was read with its `bag_lines`; until somebody chooses, the whole kit is proposed,
    and nothing of that is packed.
    """
    taken = counts(wedding, items)
    goes = {pk for pk, count in taken.items() if count}
    packed = {line.item_id for line in wedding.bag_lines.all() if line.packed}
    return {
        "goes": len(goes),
        "packed": len(goes & packed),
        "charging_hours": charging(items, taken),
    }


def charging(items: list[KitItem], taken: dict[int, int]) -> float:
    """Hours until every battery that goes is charged, one at a time in each charger of its type."""
    batteries, chargers = Counter(), Counter()
    for item in items:
        if item.kind in {KitItem.Kind.BATTERY, KitItem.Kind.CHARGER} and item.power:
            counted = batteries if item.kind == KitItem.Kind.BATTERY else chargers
            for power in several(item.power):
                counted[power] += taken.get(item.pk, 0)
    return max((charging_hours(n, chargers[power]) for power, n in batteries.items()), default=0.0)


def _proposed(first: date, last: date) -> Iterator[tuple[KitItem, Use]]:
    """What is lent and would go where nobody chose yet, on days with more than one wedding: all
    of it that is there."""
    lent = list(KitItem.objects.filter(owner__in=LENT))
    if not lent:
        return
    days = Day.objects.filter(date__range=(first, last)).order_by().values("date")
    shared = days.annotate(n=Count("wedding", distinct=True)).filter(n__gt=1).values("date")
    near = Wedding.objects.filter(days__date__in=shared, days__removed_at=None, bag_lines=None)
    for wedding in near.distinct().prefetch_related("days"):
        dates = wedding.dates
        for item in (each for each in lent if is_here(each, dates)):
            yield item, Use(wedding.public_id, "", min(dates), max(dates), item.count)


def season_hires(first: date, last: date) -> list[Hire]:
    """What is hired or borrowed, and to which weddings of these dates it goes; names come later."""
    lines = BagLine.objects.filter(
        count__gt=0,
        item__owner__in=LENT,
        wedding__days__date__range=(first, last),
        wedding__days__removed_at=None,
    ).select_related("item", "wedding")
    lines = lines.annotate(first=Min("wedding__days__date"), last=Max("wedding__days__date"))
    uses: dict[KitItem, list[Use]] = defaultdict(list)
    for line in lines.order_by("first", "pk"):
        uses[line.item].append(Use(line.wedding.public_id, "", line.first, line.last, line.count))
    for item, use in _proposed(first, last):
        uses[item].append(use)
    return [
        Hire(item.title, item.count, item.had_from, item.back_by, tuple(found))
        for item, found in uses.items()
    ]
