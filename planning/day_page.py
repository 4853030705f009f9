"""The Day screen: each date's verdict, drawing, blocks with what can be settled, and its rain."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from django.forms import BaseForm
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from intake.models import Wedding
from studio.templatetags.clock import said

from .compute import check_care as care
from .compute import check_times as times
from .compute.advice import tame_first
from .compute.planned import Block, Day, Kept, Plan, Shortfall
from .compute.second import clashes
from .compute.values import Brief
from .compute.wet import Parting, parting
from .day_acts import block_form, own_form
from .day_form import BlockForm, DayForm, OwnBlockForm
from .day_words import (
    Offer,
    offers,
    risks,
    spare,
    spoken_slack,
    sum_of,
    tamed,
    verdict,
    wet_verdict,
)
from .models import BlockDecision, DayDecision
from .ribbon import ribbon_svg
from .sides import Side, sides

# What else the page says of a day as a whole; the verdict tells what does not fit.
NOTED = (
    care.changed_since_settled,
    care.couple_at_once,
    care.second_does_not_fit,
    times.where_it_starts,
    times.unknown_drives,
    times.beyond_booked_hours,
    times.no_time_left,
    times.in_the_dark,
    care.long_day,
    care.no_break,
    care.tired_drive,
)


class Settles:
    """Something that can be settled: by `decision`, if it is."""

    decision: BlockDecision | None

    @property
    def settled(self) -> bool:
        return self.decision is not None

    @property
    def own(self) -> bool:
        return self.decision is not None and bool(self.decision.kind)


@dataclass(frozen=True)
class Row(Settles):
    """A block in the table; `form` where something can be settled about it."""

    block: Block
    decision: BlockDecision | None = None
    form: BlockForm | None = None
    slack: str = ""
    place: int = 0
    late: int = 0
    changes: bool = False


@dataclass(frozen=True)
class Squeezed(Settles):
    """A block that gives way until nothing is left of it, and can still be settled."""

    key: str
    title: str
    decision: BlockDecision | None = None
    form: BlockForm | None = None
    changes: bool = True


@dataclass(frozen=True)
class DayView:
    """All that the page shows of one date."""

    day: Day
    ribbon: SafeString
    verdict: str
    risks: list[str]
    sums: list[tuple[Shortfall, str, list[Offer]]]
    rows: list[Row]
    decision: DayDecision
    add: OwnBlockForm
    settings: DayForm
    notes: list[str]
    spare: str
    wet_verdict: str
    tame: list[str]
    wished: bool = False
    sides: list[Side] = field(default_factory=list)
    theirs: list[Row] = field(default_factory=list)
    squeezed: list[Squeezed] = field(default_factory=list)
    parting: Parting | None = None
    clash: bool = False

    @property
    def promises(self) -> tuple[Kept, ...]:
        return self.day.promises


def day_views(
    wedding: Wedding, plan: Plan, refused: dict[str, Any] | None = None, opened: str = ""
) -> list[DayView]:
    """`refused` holds what was typed and not kept: the day's key, the act, and the form; `opened`
    is the key of the block whose boxes are open."""
    days = {day.key: day for day in wedding.days.prefetch_related("block_decisions")}
    return [
        _view(
            wedding,
            plan.brief,
            day,
            days[day.brief.key],
            (refused or {}) | {"open": opened},
            _notes(plan, day),
        )
        for day in plan.days
        if day.brief.key in days
    ]


def _notes(plan: Plan, day: Day) -> list[str]:
    """What the checks say of this day, and of the night before it."""
    alone = replace(plan, days=(day,))
    found = [said(finding) for check in NOTED for finding in check(alone)]
    before = plan.days[: plan.days.index(day)][-1:]
    night = care.short_night(replace(plan, days=(*before, day)))
    return [*found, *(said(finding) for finding in night)]


def _view(
    wedding: Wedding,
    brief: Brief,
    day: Day,
    stored: Any,
    refused: dict[str, Any],
    notes: list[str],
) -> DayView:
    decisions = {each.key: each for each in stored.block_decisions.all()}
    decision = DayDecision.objects.filter(day=stored).first() or DayDecision(day=stored)
    here = refused if refused.get("day") == stored.key else {"open": refused["open"]}
    form: BaseForm | None = here.get("form")
    return DayView(
        day=day,
        ribbon=ribbon_svg(day),
        verdict=verdict(day),
        risks=risks(day),
        sums=[(gap, sum_of(gap), offers(day, gap)) for gap in day.shortfalls],
        rows=list(_rows(wedding, day, decisions, here)),
        decision=decision,
        add=form if isinstance(form, OwnBlockForm) else own_form(day),
        settings=form
        if isinstance(form, DayForm)
        else DayForm(instance=decision, auto_id=f"{stored.key}-%s"),
        notes=notes,
        spare=spare(day),
        wet_verdict=wet_verdict(day),
        tame=tamed(day, tame_first(day)) if day.verdict == "risky" else [],
        wished=any(each.suggested for each in decisions.values()),
        sides=sides(day),
        theirs=list(_theirs(wedding, day, decisions, here)),
        squeezed=list(_squeezed(wedding, day, decisions, here)),
        parting=parting(day),
        clash=bool(clashes(day, brief)) or bool(day.second and day.second.shortfalls),
    )


def _rows(
    wedding: Wedding, day: Day, decisions: dict[str, BlockDecision], refused: dict[str, Any]
) -> Any:
    slack = spoken_slack(day)
    late = {gap.before.key: gap.short_minutes for gap in day.shortfalls if gap.before}
    asked = {block.key for block in day.problem.blocks} if day.problem else set()
    place = 0
    for block in day.blocks:
        decision = decisions.get(block.key)
        changes = block.key in asked and not block.key.endswith("-on")
        place += block.kind != "travel"
        form = _form(wedding, day, block.key, decision, refused) if changes else None
        told, behind = slack.get(block.key, ""), late.get(block.key, 0)
        yield Row(block, decision, form, told, place, behind, changes)


def _form(
    wedding: Wedding,
    day: Day,
    key: str,
    decision: BlockDecision | None,
    refused: dict[str, Any],
) -> BlockForm | None:
    """What was typed and refused, or the boxes of the block that is opened."""
    if refused.get("do") == f"keep:{key}" and isinstance(refused["form"], BlockForm):
        return refused["form"]
    return block_form(wedding, day, key, None, decision) if key == refused["open"] else None


def _theirs(
    wedding: Wedding, day: Day, decisions: dict[str, BlockDecision], refused: dict[str, Any]
) -> Iterator[Row]:
    """The second photographer's blocks; what both do is settled among hers."""
    second = day.second
    if second is None:
        return
    hers = {block.key for block in day.blocks}
    late = {gap.before.key: gap.short_minutes for gap in second.shortfalls if gap.before}
    for block in second.blocks:
        decision = decisions.get(block.key)
        changes = block.kind != "travel" and block.key not in hers
        form = _form(wedding, day, block.key, decision, refused) if changes else None
        behind = late.get(block.key, 0)
        yield Row(block, decision, form, late=behind, changes=changes)


def _squeezed(
    wedding: Wedding, day: Day, decisions: dict[str, BlockDecision], refused: dict[str, Any]
) -> Iterator[Squeezed]:
    for key, title in day.squeezed:
        decision = decisions.get(key)
        form = _form(wedding, day, key, decision, refused)
        yield Squeezed(key, _(title), decision, form)
