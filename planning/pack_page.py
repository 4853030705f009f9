"""What the day pack shows of each day beside its blocks: chances, slack, rain, and late plans."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from studio.templatetags.clock import clock

from .compute.late import Ending, endings, why_none
from .compute.network.cuts import LATE
from .compute.planned import Block, Day, Finding, Plan
from .compute.wet import Parting, parting
from .cut_words import Advice, advice_for, keeps
from .day_words import in_hundred, risks, spoken_slack, verdict, wet_verdict
from .sides import Side, sides

CAUTIONS = {"long_day", "no_break", "tired_drive", "short_night"}


@dataclass(frozen=True)
class LateRow:
    """One advice; `late` is its lateness in minutes, or the first and last it is good for. What
    it does to the next time is told for the last of them."""

    late: str
    advice: Advice
    ask: str


@dataclass(frozen=True)
class LateTable:
    """`keeps` is the time that is to be kept; where nothing helps a row may name another."""

    block: Block
    keeps: str
    rows: list[LateRow]


@dataclass(frozen=True)
class PackDay:
    """`kept` is the chance of each fixed time, `spare` the slack before it, by block key. Where
    `late` is empty, `why` says for what reason, as compute.late.why_none does."""

    day: Day
    verdict: str
    leaving: str
    kept: dict[str, str]
    spare: dict[str, str]
    late: list[LateTable]
    why: str
    differs: list[Side]
    parting: Parting | None
    wet_verdict: str = ""


def pack_days(plan: Plan) -> list[PackDay]:
    return [_day(day) for day in plan.days]


def cautions(plan: Plan) -> list[Finding]:
    """What the days ask of the photographer."""
    return [finding for finding in plan.findings if finding.code in CAUTIONS]


def _day(day: Day) -> PackDay:
    late = [_table(day, each) for each in endings(day, LATE, posts=True)]
    return PackDay(
        day=day,
        verdict=verdict(day) if day.verdict else "",
        leaving=leaving_words(day),
        kept={each.block.key: in_hundred(each.chance) for each in day.promises},
        spare=spoken_slack(day),
        late=late,
        why="" if late else why_none(day),
        differs=[side for side in sides(day) if side.differs and _counts(side)],
        parting=parting(day),
        wet_verdict=_wet_verdict(day),
    )


def _wet_verdict(day: Day) -> str:
    """How the day holds in rain, and what is less sure than wanted then."""
    if day.wet is None or not day.wet.verdict:
        return ""
    return " ".join([wet_verdict(day), *(f"{risk}." for risk in risks(day.wet))])


def leaving_words(day: Day) -> str:
    """When to leave home, and by which rule where the two differ."""
    if day.leave_home is None:
        return ""
    leaving = day.answer.leaving if day.answer else None
    at = clock(day.leave_home)
    if leaving is None or day.problem is None or leaving.rule == leaving.simulated:
        return _("Leave home %(at)s.") % {"at": at}
    rule, days = (clock(day.problem.hours.at(m)) for m in (leaving.rule, leaving.simulated))
    return _(
        "Leave home %(at)s: with a third on top of the map it would be %(rule)s, to be in time on "
        "95 of 100 simulated days %(days)s. The earlier one counts."
    ) % {"at": at, "rule": rule, "days": days}


def _table(day: Day, ending: Ending) -> LateTable:
    """Latenesses with the same advice share a row, also where it asks for ever later times."""
    rows: list[LateRow] = []
    alike: list[Advice] = []
    for each in advice_for(day, ending):
        if alike and _same(alike[-1], each):
            rows.pop()
        else:
            alike = []
        alike.append(each)
        rows.append(_row(alike[0], each))
    return LateTable(ending.block, keeps(day, ending.plans[0]), rows)


def _row(first: Advice, last: Advice) -> LateRow:
    late = str(last.late) if first is last else f"{first.late}–{last.late}"
    at = last.moved_to if first is last else f"{first.moved_to}–{last.moved_to}"
    return LateRow(late, last, last.ask_for(at))


def _same(one: Advice, other: Advice) -> bool:
    alike = replace(one, late=other.late, ends=other.ends)
    if one.moved_to and other.moved_to:
        alike = replace(alike, keeps=other.keeps, moved_to=other.moved_to, then=other.then)
    return alike == other


def _counts(side: Side) -> bool:
    """Drives show in the times of what they lead to."""
    return (side.fair or side.wet).kind != "travel"
