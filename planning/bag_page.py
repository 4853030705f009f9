"""What the Bag screen shows: holes in words, what fits what, and what goes."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from django.utils.translation import gettext as _

from intake.models import Wedding

from .brief_bag import counts, is_here
from .compute.bag.check import Bag, Hole, together
from .compute.bag.items import tidy
from .kit_models import KitItem


@dataclass(frozen=True)
class Line:
    """A thing of the kit and how many of it go; `away` where it is not there that day."""

    item: KitItem
    count: int
    packed: bool
    away: bool


@dataclass(frozen=True)
class Fit:
    """What shares one fitting: how many of each kind there are in the bag."""

    name: str
    counts: tuple[tuple[str, int], ...]
    lacking: tuple[str, ...]


def lines(wedding: Wedding) -> list[Line]:
    items, dates = list(KitItem.objects.all()), wedding.dates
    taken, packed = counts(wedding, items), {b.item_id: b.packed for b in wedding.bag_lines.all()}
    return [
        Line(item, taken[item.pk], packed.get(item.pk, False), not is_here(item, dates))
        for item in items
    ]


def hole_words(holes: tuple[Hole, ...]) -> str:
    """One sentence: what fails, what is then lacking."""
    hole = holes[0]
    values = {"jobs": ", ".join(_(job.title) for job in hole.jobs)}
    if hole.cause == "missing":
        return _("Lacking: %(jobs)s.") % values
    if hole.cause == "one" and len(holes) == 1:
        values["item"] = hole.lost[0].title
        return _("If “%(item)s” fails, this is lacking: %(jobs)s.") % values
    if hole.cause == "one":
        values["items"] = ", ".join(each.lost[0].title for each in holes)
        return _("If any of these fails (%(items)s), this is lacking: %(jobs)s.") % values
    values["where"] = hole.where or _("the one bag that all is in")
    return _("If “%(where)s” is stolen, soaked or left behind, this is lacking: %(jobs)s.") % values


def cure_words(hole: Hole) -> str:
    own = [cure.item.title for cure in hole.cures if cure.item]
    hire = ", ".join(_(cure.hire) for cure in hole.cures if not cure.item)
    if hole.cause == "shared":
        return _("Let a body with lens, card and battery travel in something else, or on you.")
    told = []
    if own:
        told.append(_("In your kit, so take it too: %(items)s.") % {"items": _counted(own)})
    if hire:
        told.append(_("Borrow or hire %(what)s.") % {"what": hire})
    return " ".join(told)


def _counted(titles: list[str]) -> str:
    each = Counter(titles)
    return ", ".join(f"{title} × {n}" if n > 1 else title for title, n in each.items())


def told(bag: Bag) -> list[tuple[str, str]]:
    """What is not covered and what helps, the worst first."""
    groups = [(hole,) for hole in bag.missing] + together(bag.holes)
    groups += [(hole,) for hole in bag.shared]
    return [(hole_words(holes), cure_words(holes[0])) for holes in groups]


FITTINGS = (
    ("mount", {"body": KitItem.Kind.BODY, "lens": KitItem.Kind.LENS}),
    ("card_form", {k: KitItem.Kind(k) for k in ("body", "card", "reader")}),
    ("power", {k: KitItem.Kind(k) for k in ("body", "battery", "charger")}),
)


def fits_of(bag: Bag) -> list[Fit]:
    """For each mount, form of card and type of battery what there is of each kind."""
    found = []
    for name, kinds in FITTINGS:
        words: dict[str, str] = {}
        counted: dict[str, Counter] = {}
        for item in bag.items:
            if item.kind in kinds and (word := getattr(item, name)):
                words.setdefault(tidy(word), word)
                counted.setdefault(tidy(word), Counter())[item.kind] += 1
        for key, each in counted.items():
            if name == "power" and not each["body"]:
                continue  # cells of a flash are charged elsewhere, or bought
            rows = tuple((kinds[kind].label, each[kind]) for kind in kinds)
            lacking = tuple(str(label) for label, number in rows if not number)
            found.append(Fit(words[key], rows, lacking))
    return found
