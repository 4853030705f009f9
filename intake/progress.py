"""How far the couple have come, in a few words for each step."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from .listed import listed_steps, open_questions, unanswered
from .models import MomentKind, StepState, Wedding
from .not_asked import is_asked
from .own_models import Question
from .steps import Step


@dataclass(frozen=True)
class Progress:
    """`mark` is "not_started", "optional", "missing", "draft" or "done"; `missing` says what is."""

    step: Step
    mark: str
    says: str
    missing: tuple[str, ...] = ()


SETTLED = {"done", "optional"}


def progress(wedding: Wedding, shared: Iterable[Question] | None = None) -> list[Progress]:
    """Every page on the couple's list; `shared` are the studio's questions, if known already."""
    states = {state.slug: state for state in wedding.steps.all()}
    questions = open_questions(wedding, shared)
    waits = unanswered(wedding, questions)
    listed = listed_steps(wedding, states, questions)
    return [_of_step(step, wedding, states.get(step.slug), waits) for step in listed]


def _of_step(
    step: Step, wedding: Wedding, state: StepState | None, waits: list[Question]
) -> Progress:
    if state is not None and state.draft:
        return Progress(step, "draft", _("begun, not kept yet"))
    if step.optional and (state is None or not state.saved_at):
        return Progress(step, "optional", _("optional"))
    if state is None or not state.saved_at:
        return Progress(step, "not_started", _("not started"))
    missing = (*_missing(step.slug, wedding), *(q.text for q in waits if q.step == step.slug))
    if missing:
        count = len(missing)
        says = ngettext("%(count)s thing missing", "%(count)s things missing", count)
        return Progress(step, "missing", says % {"count": count}, missing)
    return Progress(step, "done", _("done"))


def _missing(slug: str, wedding: Wedding) -> Iterator[str]:
    if slug in MISSING and is_asked(wedding, f"step.{slug}"):
        yield from MISSING[slug](wedding)


def _two(wedding: Wedding) -> list[str]:
    reachable = any(partner.phone for partner in wedding.partners.all())
    return [] if reachable else [_("A phone number of one of you")]


def _day(wedding: Wedding) -> list[str]:
    missing = [] if wedding.days.all() else [_("The date")]
    moments = wedding.moments.all()
    wanted = is_asked(wedding, "moment.ceremony")
    # Not every wedding has a ceremony on the day: then any other fixed time will do.
    ceremonies = [m for m in moments if m.kind == MomentKind.CEREMONY and wanted] or moments
    if not any(m.at and not m.unknown for m in ceremonies):
        missing.append(_("The time of the ceremony") if wanted else _("One time that is fixed"))
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
        wanted = is_asked(wedding, "moment.ceremony")
        return [_("Where the ceremony is") if wanted else _("Where your day is")]
    if not is_asked(wedding, "places.wet_plan"):
        return []
    return [
        _("%(place)s: where to go if it rains?") % {"place": place.name}
        for place in places
        if not place.wet_plan
    ]


def _people(wedding: Wedding) -> list[str]:
    helpers = [c for c in wedding.contacts.all() if c.listed_as == "helper"]
    wanted = is_asked(wedding, "list.helpers")
    return [_("Who knows everyone’s face on each side")] if wanted and not helpers else []


def _sharing(wedding: Wedding) -> list[str]:
    return [] if wedding.online else [_("Whether we may show photographs online")]


MISSING: dict[str, Callable[[Wedding], list[str]]] = {
    "two-of-you": _two,
    "day": _day,
    "places": _places,
    "people": _people,
    "sharing": _sharing,
}


def count_missing(wedding: Wedding, shared: Iterable[Question] | None = None) -> int:
    """How many things are missing, whichever steps the couple have opened."""
    waits = unanswered(wedding, open_questions(wedding, shared))
    return len(waits) + sum(len(list(_missing(slug, wedding))) for slug in MISSING)
