"""The crossing of kit and bag: rows become things, one for each that is alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from intake.models import Wedding

from .compute.bag.items import Item
from .kit_models import BagLine, BagNote, KitItem

MOST_THINGS = 600  # in one brief; a kit of more is no bag
COUNTED, AT_LEAST = 5, 2  # weddings that one's own figures are reckoned from
LOOKED_AT = 20  # the last of them with any count: charges are not counted at each
PACES, SHOTS = (0.2, 5.0), (50, 20_000)


@dataclass(frozen=True)
class Kit:
    """What every bag is packed from, and what was counted at the last weddings."""

    items: list[KitItem]
    counted: list[BagNote]

    @classmethod
    def read(cls) -> Kit:
        notes = BagNote.objects.filter(frames_taken__gt=0).order_by("-pk")
        return cls(list(KitItem.objects.all()), list(notes[:LOOKED_AT]))


def bag_values(wedding: Wedding, kit: Kit) -> dict[str, Any]:
    note = getattr(wedding, "bag_note", None) or BagNote()
    things = tuple(_things(wedding, kit.items))[:MOST_THINGS]
    own = {"pace": own_pace(wedding, kit.counted), "shots": own_shots(wedding, kit.counted)}
    return {"kit": things, "cold": note.cold, **own}


def own_pace(wedding: Wedding, counted: list[BagNote]) -> float:
    """Frames that the photographer took at other weddings beside what the usual rates said."""
    share = _share(wedding, counted, "frames_expected")
    return round(min(max(share, PACES[0]), PACES[1]), 2) if share else 1.0


def own_shots(wedding: Wedding, counted: list[BagNote]) -> int:
    """Frames of one charge at other weddings; 0 before there are enough of them."""
    share = _share(wedding, counted, "charges_used")
    return int(min(max(share, SHOTS[0]), SHOTS[1])) if share else 0


def _share(wedding: Wedding, counted: list[BagNote], beside: str) -> float:
    """Frames by that, over the last weddings where both were counted; 0 where they are too few."""
    others = [note for note in counted if note.wedding_id != wedding.pk and getattr(note, beside)]
    last = others[:COUNTED]
    if len(last) < AT_LEAST:
        return 0.0
    return sum(each.frames_taken for each in last) / sum(getattr(each, beside) for each in last)


def is_here(item: KitItem, dates: list[date]) -> bool:
    """Whether a thing that is hired or borrowed is there on every one of these dates."""
    if item.owner == KitItem.Owner.OWN or not dates:
        return True
    starts, ends = item.had_from or dates[0], item.back_by or dates[-1]
    return starts <= dates[0] and dates[-1] <= ends


def counts(wedding: Wedding, items: list[KitItem]) -> dict[int, int]:
    """How many of each go, by pk; where nothing was chosen yet, all that is there."""
    chosen: dict[int, BagLine] = {line.item_id: line for line in wedding.bag_lines.all()}
    if not chosen:
        dates = wedding.dates
        return {item.pk: item.count if is_here(item, dates) else 0 for item in items}
    return {
        item.pk: min(chosen[item.pk].count, item.count) if item.pk in chosen else 0
        for item in items
    }


def _things(wedding: Wedding, items: list[KitItem]) -> Iterator[Item]:
    """What is not there that day neither goes nor stands in for anything."""
    taken, dates = counts(wedding, items), wedding.dates
    for item in (each for each in items if is_here(each, dates)):
        for number in range(item.count):
            yield _thing(item, number < taken[item.pk])


def _thing(item: KitItem, taken: bool) -> Item:
    return Item(
        key=item.key,
        kind=item.kind,
        title=item.title,
        mount=item.mount,
        card_form=item.card_form,
        second_form=item.second_form,
        power=item.power,
        slots=item.slots,
        raw_mb=item.raw_mb or 0,
        shots=item.shots or 0,
        wide=item.wide or 0,
        long=item.long or 0,
        aperture=item.aperture or 0,
        gb=item.gb or 0,
        speed=item.speed or 0,
        old=item.is_old,
        carried=item.carried,
        taken=taken,
    )
