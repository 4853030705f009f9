"""How late are we: what to cut for each block's end and lateness, and for the one asked about."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from studio.templatetags.clock import block_title, clock, long_date

from .compute.late import Ending, ending_after, endings, running_days, why_none
from .compute.network.cuts import MOST_LATE
from .compute.planned import Block, Day
from .compute.values import Brief
from .cut_words import Advice, advice_for

AROUND = 4 * 3600  # seconds that a day goes on before its first block and after its last


@dataclass(frozen=True)
class EndView:
    """A block's end with all its advice; `name` is what a form sends for it."""

    name: str
    block: Block
    steps: list[Advice]
    due: bool = False

    @property
    def second(self) -> int:
        return int(self.block.end.timestamp())

    @property
    def offset(self) -> int:
        """Seconds that its clock is ahead of UTC, whatever the phone's own zone is."""
        return int(self.block.end.utcoffset().total_seconds())


@dataclass(frozen=True)
class LateDay:
    """One date: `state` is "", or why there is no plan ("short", "drives", "loose", "empty")."""

    day: Day
    state: str
    ends: list[EndView]
    free: list[Block] = field(default_factory=list)

    @property
    def hours(self) -> tuple[int, int]:
        """From when until when it goes on (POSIX seconds)."""
        return _hours(self.day)


@dataclass(frozen=True)
class LatePage:
    days: list[LateDay]
    form: LateForm | None
    rain: bool
    asked: EndView | None = None

    @property
    def is_on(self) -> bool:
        return any(end.due for day in self.days for end in day.ends)


class LateForm(forms.Form):
    """Which block ends late, and by how much."""

    after = forms.ChoiceField(label=_("What ends late"))
    late = forms.IntegerField(
        label=_("Minutes late"),
        min_value=0,
        max_value=MOST_LATE,
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )

    def __init__(self, data: QueryDict | None, days: list[LateDay], **kwargs: Any) -> None:
        super().__init__(data, **kwargs)
        told = [day for day in days if day.ends]
        groups = [
            (long_date(day.day.brief.date), [(end.name, _choice(end)) for end in day.ends])
            for day in told
        ]
        self.fields["after"].choices = (
            groups if len(told) > 1 else [c for _d, g in groups for c in g]
        )
        for each in self.fields.values():
            each.error_messages |= words_for(each)


def _choice(end: EndView) -> str:
    return f"{clock(end.block.end)} {block_title(end.block)}"


def late_page(brief: Brief, asked: QueryDict, now: datetime) -> LatePage:
    """`asked` may hold "after" and "late" (whole minutes), and "rain" for the wet plan."""
    rain = "rain" in asked
    planned = list(running_days(brief, rain))
    days = [_late_day(day, now) for day in planned]
    if not any(day.ends for day in days):
        return LatePage(days, None, rain)
    if "after" not in asked and "late" not in asked:
        return LatePage(days, LateForm(None, days, initial=_now(days, now)), rain)
    form = LateForm(asked, days)
    answer = _answer(days, form.cleaned_data) if form.is_valid() else None
    return LatePage(days, form, rain, answer)


def _late_day(day: Day, now: datetime) -> LateDay:
    found = endings(day)
    due = _due(day, found, now)
    ends = [
        EndView(f"{day.brief.key}:{each.block.key}", each.block, advice_for(day, each), each is due)
        for each in found
    ]
    told = {each.block.key for each in found}
    free = [b for b in day.blocks if b.kind != "travel" and b.key not in told] if found else []
    return LateDay(day, "" if found else why_none(day), ends, free)


def _hours(day: Day) -> tuple[int, int]:
    first, last = day.blocks[0].start, day.blocks[-1].end
    return int(first.timestamp()) - AROUND, int(last.timestamp()) + AROUND


def _due(day: Day, found: tuple[Ending, ...], now: datetime) -> Ending | None:
    """The end that is nearest, while the day goes on."""
    begins, until = _hours(day) if found else (0, 0)
    if not begins <= now.timestamp() <= until:
        return None
    return min(found, key=lambda each: abs(each.block.end.timestamp() - now.timestamp()))


def _now(days: list[LateDay], now: datetime) -> dict[str, Any]:
    """What the form asks about by itself: the block that should be ending now."""
    due = next((end for day in days for end in day.ends if end.due), None)
    if due is None:
        return {}
    late = int((now.timestamp() - due.second) // 60)
    return {"after": due.name, "late": min(max(late, 0), MOST_LATE)}


def _answer(days: list[LateDay], typed: dict[str, Any]) -> EndView:
    day, end = next((d, e) for d in days for e in d.ends if e.name == typed["after"])
    exact = ending_after(day.day, end.block.key, typed["late"])
    return EndView(end.name, end.block, advice_for(day.day, exact))
