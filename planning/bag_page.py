"""What the Bag screen shows: holes in words, what fits what, and what goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.formats import number_format
from django.utils.translation import gettext as _

from intake.models import Wedding
from studio.templatetags.clock import said

from .brief_bag import counts, is_here
from .compute.bag.check import Bag, Hole, frames_left, together
from .compute.bag.cures import Cure
from .compute.bag.hire import hire_words
from .compute.bag.items import Item, tidy
from .compute.bag.jobs import titles
from .compute.check_bag import UNKNOWN
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
    values = {"jobs": ", ".join(_(title) for title in titles(hole.jobs))}
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
    own = _counted(cure for cure in hole.cures if cure.is_own)
    if hole.cause == "shared" and own:
        return _("Let each of these travel in something else, or on you: %(items)s.") % {
            "items": own
        }
    if hole.cause == "shared":
        return _("Let a body with lens, card and battery travel in something else, or on you.")
    hired = ", ".join(said(hire_words(cure)) for cure in hole.cures if not cure.is_own)
    if own and hired:
        words = _("Take too, from your kit: %(items)s. With it, borrow or hire: %(what)s.")
    elif own:
        words = _("In your kit, so take it too: %(items)s.")
    elif hired:
        words = _("Borrow or hire: %(what)s.")
    else:
        words = _("Nothing in your kit mends it, nor any one thing to hire: change what goes.")
    return words % {"items": own, "what": hired}


def _counted(cures: Iterable[Cure]) -> str:
    each: Counter[str] = Counter()
    for cure in cures:
        each[cure.item.title] += cure.count
    return ", ".join(f"{title} × {n}" if n > 1 else title for title, n in each.items())


def told(bag: Bag) -> list[tuple[str, str]]:
    """What is not covered and what helps, the worst first."""
    groups = [(hole,) for hole in bag.missing] + together(bag.holes)
    groups += [(hole,) for hole in bag.shared]
    return [
        (f"{hole_words(holes)} {_room_words(bag, holes[0])}".strip(), cure_words(holes[0]))
        for holes in groups
    ]


def _room_words(bag: Bag, hole: Hole) -> str:
    """How much is lacking, where that is all: so it can be judged whether it matters."""
    if [job.key for job in hole.jobs] != ["space"]:
        return ""
    figures = {"frames": frames_left(bag, hole), "all": bag.need.frames}
    values = {name: number_format(n, force_grouping=True) for name, n in figures.items()}
    if hole.cause == "missing":
        return _("With the reserve, the cards take %(frames)s of about %(all)s frames.") % values
    return _("With the reserve, those left take %(frames)s of about %(all)s frames.") % values


def unknown(bag: Bag) -> list[tuple[str, str]]:
    """What nobody has entered, in words, and the key of the thing."""
    return [(_(UNKNOWN[figure]) % {"item": i.title}, i.key) for i, figure in bag.unknown]


def less_safe(bag: Bag) -> list[str]:
    """What does not end the day, but leaves each frame on one card until that night."""
    lines = []
    for holes in together(bag.safety):
        items = ", ".join(hole.lost[0].title for hole in holes if hole.lost)
        if items:
            words = _(
                "If “%(items)s” fails, new frames are on one card only until the copies of that "
                "night."
            )
        else:
            words = _(
                "The cards do not take every frame twice. The day fits on them once; then frames "
                "are on one card only until the copies of that night."
            )
        cure = cure_words(holes[0]) if holes[0].cures else ""
        lines.append(f"{words % {'items': items}} {cure}".strip())
    return lines


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
            for word in _words_of(item, name) if item.kind in kinds else ():
                words.setdefault(tidy(word), word)
                counted.setdefault(tidy(word), Counter())[item.kind] += 1
        for key, each in counted.items():
            if name == "power" and not each["body"]:
                continue  # cells of a flash are charged elsewhere, or bought
            rows = tuple((kinds[kind].label, each[kind]) for kind in kinds)
            lacking = tuple(str(label) for label, number in rows if not number)
            found.append(Fit(words[key], rows, lacking))
    return found


def _words_of(item: Item, name: str) -> list[str]:
    """Each fitting of it once, as typed."""
    text = getattr(item, name)
    typed = text.split(",") if item.kind in {"reader", "charger"} else [text]
    if name == "card_form" and item.kind == "body" and item.slots > 1:
        typed.append(item.second_form)
    return list({tidy(word): word.strip() for word in reversed(typed) if tidy(word)}.values())
