"""What papers are drawn from: one wedding's plan, whose studio, and how its summary stands."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass
from functools import cached_property
from typing import Any

from django.utils.translation import gettext as _

from intake.models import Wedding
from planning.agreed_words import state_line
from planning.agreements import Standing, standing
from planning.brief import load_brief
from planning.compute.agreed_changes import Change
from planning.compute.day import plan_wedding
from planning.compute.planned import Plan
from planning.compute.values import Brief
from planning.light_page import DayLight, light_of
from planning.pack_page import PackDay, pack_days
from studio.models import Studio


@dataclass(frozen=True)
class Reader:
    """One of those for whom a sheet is made once each; `key` stands in its address."""

    key: str
    name: str


@dataclass(frozen=True)
class Subject:
    """`standing` is None where nothing was ever shared with the couple, `wedding` where a plan has
    no rows behind it."""

    plan: Plan
    studio: Studio
    standing: Standing | None = None
    wedding: Wedding | None = None

    @property
    def brief(self) -> Brief:
        return self.plan.brief

    @cached_property
    def lights(self) -> list[DayLight]:
        return light_of(self.plan)

    @cached_property
    def days(self) -> list[PackDay]:
        return pack_days(self.plan)

    @cached_property
    def state(self) -> str:
        return state_line(self.standing) if self.standing else ""

    @cached_property
    def changes(self) -> list[Change]:
        """What is otherwise now than the couple confirmed."""
        return self.standing.since_confirmed if self.standing else []

    @cached_property
    def changed(self) -> frozenset[str]:
        """The keys of blocks, groups and places that a change is about."""
        return frozenset(change.key for change in self.changes if change.key)

    @property
    def version(self) -> str:
        """The newest version of the summary, where there is one, and the mark of this print."""
        newest = self.standing.shared if self.standing else None
        values = {"mark": self.mark, "number": newest.number if newest else 0}
        return _("version %(number)s, print %(mark)s") % values if newest else self.print_mark

    @property
    def print_mark(self) -> str:
        return _("print %(mark)s") % {"mark": self.mark}

    @cached_property
    def mark(self) -> str:
        """Four letters of what is printed: two papers with the same ones say the same.

        They are the beginning of a SHA-256 digest (FIPS 180-4) of everything the plan rests on.
        """
        said = [asdict(self.brief), self.studio.name, self.studio.phone, self.state]
        text = json.dumps(said, sort_keys=True, default=_in_order, ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()[:4].upper()


def _in_order(value: Any) -> Any:
    return sorted(value) if isinstance(value, frozenset | set) else str(value)


def subject_of(wedding: Wedding) -> Subject:
    """As it stands in the database now."""
    plan = plan_wedding(load_brief(wedding))
    stands = standing(wedding, plan) if wedding.agreements.exists() else None
    return Subject(plan, Studio.get(), stands, wedding)
