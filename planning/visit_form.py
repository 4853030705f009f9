"""What the visit's page was asked for, and the visit that is taken from it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.models import Wedding
from intake.when import DateField
from studio.templatetags.clock import block_title, clock, long_date

from .compute.clock import to_minute
from .compute.light.hours import FIRST_YEAR, LAST_YEAR
from .compute.planned import Block, Plan
from .compute.values import Place
from .compute.visit import Candidate, block_of, candidates, middle, visited_block, window_days
from .models import Decisions


class VisitForm(forms.Form):
    """Which block's sun is to be seen, where, and on which other day perhaps."""

    block = forms.ChoiceField(label=_("To see the sun of"))
    place = forms.ChoiceField(label=_("At"))
    date = DateField(label=_("Another day"), required=False)

    def __init__(self, data: QueryDict, plan: Plan) -> None:
        self.plan, self.places = plan, [p for p in plan.brief.places if p.spot]
        self.blocks = {
            b.key: b for day in plan.days for b in day.blocks if b.place and b.kind != "travel"
        }
        default = visited_block(plan.days, plan.brief.visit_block)
        first = {
            "block": default.key if default else "",
            "place": plan.brief.visit_place or (default.place.key if default else ""),
        }
        super().__init__({**first, **{k: v for k, v in data.items() if v}})
        self.fields["block"].choices = [(key, _named(b)) for key, b in self.blocks.items()]
        self.fields["place"].choices = [(place.key, place.name) for place in self.places]
        for field in self.fields.values():
            field.error_messages |= words_for(field)

    def clean_date(self) -> date | None:
        day = self.cleaned_data["date"]
        if day and not FIRST_YEAR <= day.year <= LAST_YEAR:
            raise forms.ValidationError(_("Look at the year: %(year)s") % {"year": day.year})
        return day

    @property
    def chosen_block(self) -> Block | None:
        return self.blocks.get(self._known("block"))

    @property
    def chosen_place(self) -> Place | None:
        return next((place for place in self.places if place.key == self._known("place")), None)

    def _known(self, name: str) -> Any:
        """What was chosen, even where the date beside it is none."""
        self.is_valid()
        return self.cleaned_data.get(name)


def _named(block: Block) -> str:
    return f"{long_date(block.start)}, {clock(block.start)}, {block_title(block)}"


@dataclass(frozen=True)
class Offer:
    """The days offered for a visit, or none where block or place is not known."""

    block: Block
    place: Place
    wanted: datetime
    days: tuple[Candidate, ...]
    today: date

    @property
    def best(self) -> Candidate | None:
        return next((each for each in self.days if each.best), None)


def offer(form: VisitForm, now: datetime) -> Offer | None:
    """The window before the wedding, today while it lies ahead, and the day that was typed."""
    block, place = form.chosen_block, form.chosen_place
    if block is None or place is None:
        return None
    zone = form.plan.brief.zone
    today, wedding = now.astimezone(ZoneInfo(zone)).date(), block.start.date()
    others = {today} if today <= wedding else set()
    if typed := form.cleaned_data.get("date"):
        others.add(typed)
    days = candidates(place, zone, middle(block), window_days(wedding, today), others)
    return Offer(block, place, middle(block), days, today)


def take(wedding: Wedding, plan: Plan, data: QueryDict) -> datetime | None:
    """Keep the visit whose button was pressed; None, and nothing kept, where it is none."""
    try:
        at = datetime.fromisoformat(data.get("at", ""))
        minute = to_minute(at).astimezone(UTC)  # what stood on the button
    except (ValueError, OverflowError, OSError):
        return None
    block = block_of(plan.days, data.get("block", ""))
    places = {place.key: place for place in wedding.places.all()}
    place = places.get(data.get("place", ""))
    if at.utcoffset() is None or place is None or block is None:
        return None
    if not FIRST_YEAR <= minute.year <= LAST_YEAR:
        return None
    values = {"visit_at": minute, "visit_place": place, "visit_block": block.key}
    Decisions.objects.update_or_create(wedding=wedding, defaults=values)
    return minute.astimezone(ZoneInfo(wedding.zone))
