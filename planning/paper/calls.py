"""Whom to call on the day, by whom you would call first. Common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from planning.compute.planned import Plan
from planning.compute.values import Brief, Contact, Place


@dataclass(frozen=True)
class Call:
    name: str
    who: str
    phone: str


@dataclass(frozen=True)
class Calls:
    """Those of one purpose; none of them is ever empty."""

    purpose: str
    calls: tuple[Call, ...]


def calls(plan: Plan) -> list[Calls]:
    """Places in the order in which they are driven to, then who finds people, then the couple."""
    brief = plan.brief
    ranks = (
        (_("Late, lost, or at a locked door"), _in_charge(plan)),
        (_("Somebody is missing"), [_helper(brief, c) for c in brief.helpers] + _others(brief)),
        (_("The two themselves, last on the day"), _partners(brief)),
        (_("Others who work there"), [Call(c.name, c.role, c.phone) for c in brief.suppliers]),
    )
    return [Calls(purpose, tuple(rows)) for purpose, rows in ranks if rows]


def _in_charge(plan: Plan) -> list[Call]:
    words = _("in charge at %(place)s")
    return [
        Call(place.coordinator.name, words % {"place": place.name}, place.coordinator.phone)
        for place in _by_time(plan)
        if place.coordinator
    ]


def _by_time(plan: Plan) -> list[Place]:
    """Each place once, first those of the day as it goes."""
    there = [block.place.key for day in plan.days for block in day.blocks if block.place]
    order = {key: at for at, key in reversed(list(enumerate(there)))}
    return sorted(plan.brief.places, key=lambda place: order.get(place.key, len(there)))


def _helper(brief: Brief, helper: Contact) -> Call:
    return Call(helper.name, knows(brief, helper.side), helper.phone)


def knows(brief: Brief, side: str) -> str:
    """Whose guests a helper knows by sight."""
    which = {"first": 0, "second": 1}.get(side)
    if which is None or which >= len(brief.partners):
        return _("knows both sides")
    return _("knows %(name)s’s side") % {"name": brief.partners[which].called}


def _others(brief: Brief) -> list[Call]:
    return [Call(c.name, c.role, c.phone) for c in brief.contacts]


def _partners(brief: Brief) -> list[Call]:
    return [
        Call(f"{p.name} ({p.called})" if p.called != p.name else p.name, p.word, p.phone)
        for p in brief.partners
    ]
