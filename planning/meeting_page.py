"""What the Meeting shows: what is open, how the day stands, and how the summary does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from intake.models import MomentKind, Wedding
from intake.progress import Progress, progress
from studio.templatetags.clock import long_date

from .agreed_words import state_line
from .agreements import standing
from .brief import load_brief
from .compute.agreed import digest_of, to_text
from .compute.day import plan_wedding
from .compute.expectations import room_for_groups
from .compute.planned import Day, Plan
from .compute.ready import ready_list
from .day_words import risks, verdict
from .meeting_sheet import Sheet
from .ready_brief import load_ready
from .ready_words import title_of

AT_THE_TABLE = {"contract", "abroad", "stand-in", "coordinator"}


@dataclass(frozen=True)
class Open:
    """Something that nobody has said or decided yet, and where to."""

    words: str
    url: str
    link: str


@dataclass(frozen=True)
class DayHolds:
    day: Day
    verdict: str
    risks: list[str]


def meeting_page(wedding: Wedding, sheet: Sheet) -> dict[str, Any]:
    plan = plan_wedding(load_brief(wedding))
    stands, steps = standing(wedding, plan), progress(wedding)
    return {
        "wedding": wedding,
        "screen": "meeting",
        "plan": plan,
        "sheet": sheet,
        "progress": {each.step.slug: each for each in steps},
        "missing": list(missing(wedding, plan, steps)),
        "days": [
            DayHolds(day, verdict(day) if day.verdict else "", risks(day)) for day in plan.days
        ],
        "room": room_for_groups(plan.brief, plan.days) if plan.turns else None,
        "stands": stands,
        "state": state_line(stands),
        "seen": digest_of(to_text(stands.now)),
    }


def missing(wedding: Wedding, plan: Plan, steps: list[Progress]) -> Iterator[Open]:
    """What no finding speaks of: steps not answered, times not known, decisions not made."""
    settle = _("Settle it")
    for each in steps:
        if each.mark in {"not_started", "draft"}:
            words = _("%(step)s: %(state)s") % {"step": each.step.title, "state": each.says}
            yield Open(words, _step(wedding, each.step.slug), settle)
    for moment in wedding.moments.all():
        if moment.unknown and moment.kind != MomentKind.CEREMONY:  # of that a finding speaks
            words = _("%(moment)s: the couple do not know the time yet") % {"moment": moment}
            yield Open(words, _step(wedding, "day"), settle)
    yield from _undecided(plan, wedding)
    yield from _on_the_ready_list(wedding)


def _on_the_ready_list(wedding: Wedding) -> Iterator[Open]:
    """What of it is best settled at the table, the studio's own lines included."""
    found = ready_list(load_ready(wedding.public_id), timezone.now())
    for entry in found.open:
        own = entry.item.own and entry.item.due.when == "before"
        if own or entry.item.key in AT_THE_TABLE:
            words = _("On the ready list: %(title)s") % {"title": title_of(entry.item)}
            url = f"{reverse('ready', args=[wedding.public_id])}#line-{entry.key}"
            yield Open(words, url, _("Ready"))


def _undecided(plan: Plan, wedding: Wedding) -> Iterator[Open]:
    booking = reverse("booking", args=[wedding.public_id])
    for day in plan.brief.days:
        if day.starts is None or day.ends is None:
            words = _("%(day)s: your hours are not settled") % {"day": long_date(day.date)}
            yield Open(words, booking, _("Booking"))
    if plan.visit is None and any(place.spot for place in plan.brief.places):
        visit = reverse("visit", args=[wedding.public_id])
        yield Open(_("No venue visit is arranged"), visit, _("Venue visit"))


def _step(wedding: Wedding, slug: str) -> str:
    return f"{reverse('step', args=[wedding.public_id, slug])}?from=meeting"
