"""Checks of the bag: what nothing in it does, and what it no longer does once one thing fails."""

from __future__ import annotations

from collections.abc import Iterator

from .bag.check import Hole, together
from .bag.cures import Cure
from .bag.hire import hire_words
from .bag.jobs import titles
from .bag.sums import sums_of
from .planned import Finding, Plan
from .values import N_

MISSING = {
    "none": N_("The bag lacks %(job)s, and no one thing mends it: change what goes."),
    "own": N_("The bag lacks %(job)s. Take too: %(own)s."),
    "hire": N_("The bag lacks %(job)s. Borrow or hire: %(hire)s."),
    "both": N_("The bag lacks %(job)s. Take too: %(own)s. Borrow or hire: %(hire)s."),
}
ONE = {
    "none": N_(
        "If “%(item)s” fails, the bag lacks %(job)s, and no one thing mends it: change what goes."
    ),
    "own": N_("If “%(item)s” fails, the bag lacks %(job)s. Take too: %(own)s."),
    "hire": N_("If “%(item)s” fails, the bag lacks %(job)s. Borrow or hire: %(hire)s."),
    "both": N_(
        "If “%(item)s” fails, the bag lacks %(job)s. Take too: %(own)s. Borrow or hire: %(hire)s."
    ),
}
SEVERAL = {
    "none": N_(
        "Whichever of these fails, the bag lacks %(job)s, and no one thing mends it: %(item)s."
    ),
    "own": N_("Whichever of these fails, the bag lacks %(job)s: %(item)s. Take too: %(own)s."),
    "hire": N_(
        "Whichever of these fails, the bag lacks %(job)s: %(item)s. Borrow or hire: %(hire)s."
    ),
    "both": N_(
        "Whichever of these fails, the bag lacks %(job)s: %(item)s. Take too: %(own)s. Borrow or "
        "hire: %(hire)s."
    ),
}


def bag_lacks(plan: Plan) -> Iterator[Finding]:
    for hole in plan.bag.missing if plan.bag else ():
        yield _finding("bag_lacks", "missing", (hole,), MISSING)


def bag_fails(plan: Plan) -> Iterator[Finding]:
    """Things whose loss asks for the same are told at once: one body has many that hang on it."""
    for holes in together(plan.bag.holes) if plan.bag else ():
        yield _finding("bag_fails", "look", holes, ONE if len(holes) == 1 else SEVERAL)


UNKNOWN = {
    "raw_mb": N_(
        "How much a raw file of “%(item)s” takes is not entered: without that, nobody knows "
        "whether the cards hold the day."
    ),
    "shots": N_(
        "How many frames a charge of “%(item)s” gives is not entered: without that, nobody knows "
        "whether the batteries last."
    ),
}


def bag_unknown(plan: Plan) -> Iterator[Finding]:
    for item, figure in plan.bag.unknown if plan.bag else ():
        yield Finding("bag_unknown", "look", UNKNOWN[figure], {"item": item.title}, "bag")


def copying_is_long(plan: Plan) -> Iterator[Finding]:
    """A copy before one leaves takes longer than the block that it is to be made in."""
    copying = sums_of(plan.bag.items, plan.bag.need).copying if plan.bag else None
    if copying is None:
        return
    once = -(-copying.minutes // 2)
    counted = {block for block, _frames in plan.bag.need.frames_by_block}  # of the fullest day
    for block in (b for day in plan.days if counted & set(day.blocks) for b in day.blocks):
        if block.kind == "pack" and once > block.minutes:
            message = N_(
                "A copy of the day takes about %(once)s minutes by “%(link)s”, and “%(block)s” "
                "has %(has)s. Give it longer, or make that copy at home the same night."
            )
            values = {"once": once, "link": copying.link, "block": block.title}
            values["has"] = block.minutes
            yield Finding("copying_is_long", "look", message, values, "timeline")


def _finding(code: str, weight: str, holes: tuple[Hole, ...], messages: dict[str, str]) -> Finding:
    first = holes[0]
    values = {
        "job": titles(first.jobs),
        "item": tuple(item.title for hole in holes for item in hole.lost),
        "own": tuple(dict.fromkeys(c.item.title for c in first.cures if c.is_own)),
        "hire": tuple(hire_words(cure) for cure in first.cures if not cure.is_own),
    }
    return Finding(code, weight, messages[_which(first.cures)], values, "bag")


def _which(cures: tuple[Cure, ...]) -> str:
    kinds = {"own" if cure.is_own else "hire" for cure in cures}
    return "both" if len(kinds) == 2 else next(iter(kinds), "none")
