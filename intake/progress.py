"""How far the couple have come, in a few words for each step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from .models import MomentKind, Wedding
from .steps import STEPS, Step


@dataclass(frozen=True)
class Progress:
    """`mark` is "not_started", "optional", "missing", "draft" or "done"; `missing` says what is."""

    step: Step
    mark: str
    says: str
    missing: tuple[str, ...] = ()


SETTLED = {"done", "optional"}


def progress(wedding: Wedding) -> list[Progress]:
    states = {state.slug: state for state in wedding.steps.all()}
    return [_of_step(step, wedding, states.get(step.slug)) for step in STEPS]


def _of_step(step: Step, wedding: Wedding, state: object) -> Progress:
    if state is not None and state.draft:
        return Progress(step, "draft", _("begun, not kept yet"))
    if step.optional and (state is None or not state.saved_at):
        return Progress(step, "optional", _("optional"))
    if state is None or not state.saved_at:
        return Progress(step, "not_started", _("not started"))
    missing = tuple(MISSING.get(step.slug, lambda wedding: [])(wedding))
    if missing:
        count = len(missing)
        says = ngettext("%(count)s thing missing", "%(count)s things missing", count)
        return Progress(step, "missing", says % {"count": count}, missing)
    return Progress(step, "done", _("done"))


def _two(wedding: Wedding) -> list[str]:
    reachable = any(partner.phone for partner in wedding.partners.all())
    return [] if reachable else [_("A phone number of one of you")]


def _day(wedding: Wedding) -> list[str]:
    missing = [] if wedding.days.all() else [_("The date")]
    moments = wedding.moments.all()
    # Not every wedding has a ceremony on the day: then any other fixed time will do.
    ceremonies = [m for m in moments if m.kind == MomentKind.CEREMONY] or moments
    if not any(m.at and not m.unknown for m in ceremonies):
        missing.append(_("The time of the ceremony"))
    days = list(wedding.days.all())
    if len(days) > 1:
        loose = [m for m in moments if m.day_id is None]
        missing += [_("Which day: %(moment)s") % {"moment": moment} for moment in loose]
    if len({day.date for day in days}) < len(days):
        missing.append(_("Two days have the same date"))
    return missing


def _places(wedding: Wedding) -> list[str]:
    places = wedding.places.all()
    if not places:
        return [_("Where the ceremony is")]
    return [
        _("%(place)s: where to go if it rains?") % {"place": place.name}
        for place in places
        if not place.wet_plan
    ]


def _people(wedding: Wedding) -> list[str]:
    helpers = [c for c in wedding.contacts.all() if c.listed_as == "helper"]
    return [] if helpers else [_("Who knows everyone’s face on each side")]


MISSING: dict[str, Callable[[Wedding], list[str]]] = {
    "two-of-you": _two,
    "day": _day,
    "places": _places,
    "people": _people,
}


def count_missing(wedding: Wedding) -> int:
    """How many things are missing, whichever steps the couple have opened."""
    return sum(len(find(wedding)) for find in MISSING.values())
