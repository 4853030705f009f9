"""The ready list's own crossing: rows of one wedding, or of many, become `ReadyBrief`s.

It reads no plan, so that a season of weddings takes as many questions to the database as one.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Any

from django.db.models import Exists, OuterRef, Prefetch, Value
from django.db.models.functions import Concat

from intake.listed import shared_questions
from intake.models import Day, Question, Wedding
from intake.not_asked import is_asked
from intake.progress import count_missing
from studio.models import Studio

from . import models as decided
from .compute.cover import USUAL
from .compute.ready_values import PRACTICE, Due, Item, Policy, ReadyBrief, Tick
from .compute.values import DayBrief
from .countries import country_of
from .kit_models import KitItem
from .ready_bag import bag_facts

HOLD_DAYS = 30  # weddings so long ago that their cards may still hold the only copy; our choice
READ_WITH = (
    "days__hours",
    "days__block_decisions",
    "partners",
    "places",
    "moments",
    "contacts",
    "groups__decision",
    "steps",
    "questions",
    "own_answers",
    "answer_notes",
    "assigned",
    "ready_ticks",
    "ready_items",
    "bag_lines",
    Prefetch("agreements", decided.Agreement.objects.defer("snapshot")),
)
EVENING = decided.ReadyItem.When.EVENING
SECONDS = {"second", "both"}


def read_with_ready(weddings: Any) -> Any:
    """A queryset of weddings with what their ready lists need."""
    return weddings.select_related("decisions").prefetch_related(*READ_WITH)


def load_ready(public_id: str) -> ReadyBrief:
    """One wedding's; `Wedding.DoesNotExist` where there is none."""
    (brief,) = ready_briefs([read_with_ready(Wedding.objects).get(public_id=public_id)])
    return brief


def ready_briefs(weddings: Sequence[Wedding]) -> list[ReadyBrief]:
    """Of weddings read by `read_with_ready`: what the studio has is read once for all of them."""
    studio = Studio.get()
    shared = {
        "home_country": country_of(studio.zone),
        "home_zone": studio.zone,
        "kinds": wanted_kinds(studio),
        "policies": tuple(as_policy(row) for row in decided.Policy.objects.all()),
    }
    own = [as_item(row) for row in decided.ReadyItem.objects.filter(wedding=None)]
    questions, kit = shared_questions(), list(KitItem.objects.all())
    held = _held(weddings)
    return [
        _brief(
            wedding,
            own,
            cards_hold=_holding(wedding, held),
            **shared,
            **_answered(wedding, questions),
            **bag_facts(wedding, kit),
        )
        for wedding in weddings
    ]


def wanted_kinds(studio: Studio) -> frozenset[str]:
    """The insurances that every wedding needs."""
    return frozenset(USUAL if studio.insurance is None else studio.insurance)


def countries_of(chosen: list[str] | None, zone: str) -> frozenset[str]:
    """As the booking has them, else that of the time zone."""
    return frozenset(chosen or filter(None, [country_of(zone)]))


def _brief(wedding: Wedding, own: list[Item], **facts: Any) -> ReadyBrief:
    decisions = getattr(wedding, "decisions", None) or decided.Decisions()
    return ReadyBrief(
        wedding=wedding.public_id,
        names=wedding.names,
        zone=wedding.zone,
        days=tuple(_day(day) for day in wedding.days.all()),
        booked_at=wedding.created_at,
        countries=countries_of(decisions.countries, wedding.zone),
        own=(*own, *(as_item(row) for row in wedding.ready_items.all())),
        ticks={row.key: _tick(row) for row in wedding.ready_ticks.all()},
        meeting_at=decisions.meeting_at,
        visit_at=decisions.visit_at,
        **_agreed(wedding),
        **_people(wedding),
        **facts,
    )


def _answered(wedding: Wedding, questions: list[Question]) -> dict[str, Any]:
    return {
        "begun": any(step.saved_at or step.draft for step in wedding.steps.all()),
        "sent_at": wedding.sent_at,
        "missing": count_missing(wedding, questions) if wedding.sent_at else 0,
        "answers_due": wedding.answers_due,
        "online": wedding.online,
        "sharing_asked": is_asked(wedding, "step.sharing"),
    }


def _agreed(wedding: Wedding) -> dict[str, Any]:
    """The newest confirmation counts; a note beside an answer is what a meeting leaves behind."""
    versions = wedding.agreements.all()
    confirmed = [version.confirmed_at for version in versions if version.confirmed_at]
    return {
        "shared": bool(versions),
        "agreed_at": max(confirmed, default=None),
        "met": bool(versions) or any(note.settled for note in wedding.answer_notes.all()),
    }


def _people(wedding: Wedding) -> dict[str, Any]:
    left_out = {
        g.pk for g in wedding.groups.all() if hasattr(g, "decision") and g.decision.left_out
    }
    contacts = wedding.contacts.all()
    blocks = [block for day in wedding.days.all() for block in day.block_decisions.all()]
    return {
        "groups": sum(group.pk not in left_out for group in wedding.groups.all()),
        "helpers": tuple(c.name for c in contacts if c.listed_as == "helper"),
        "coordinators": tuple(p.coordinator for p in wedding.places.all() if p.coordinator),
        "second": bool(wedding.assigned.all()) or any(block.who in SECONDS for block in blocks),
    }


def _day(day: Day) -> DayBrief:
    hours = getattr(day, "hours", None)
    return DayBrief(
        day.key,
        day.date,
        day.title,
        starts=hours.starts if hours else None,
        ends=hours.ends if hours else None,
    )


def _tick(row: decided.ReadyTick) -> Tick:
    return Tick(row.key, row.state, row.by_name, row.at, row.note, row.pk)


def as_policy(row: decided.Policy) -> Policy:
    return Policy(row.kind, row.insurer, row.starts, row.ends, frozenset(row.countries))


def as_item(row: decided.ReadyItem) -> Item:
    due = Due(row.when, row.days) if row.at is None else Due(row.when, row.days, row.at)
    return Item(f"own-{row.key}", row.title, due, row.why, source=PRACTICE, own=True)


def evening_items() -> list[Item]:
    """What the studio adds to every evening before, in its own words."""
    return [as_item(row) for row in decided.ReadyItem.objects.filter(wedding=None, when=EVENING)]


def evening_items_of(wedding: Wedding) -> list[Item]:
    return [as_item(row) for row in wedding.ready_items.all() if row.when == EVENING]


def spared(wedding: Wedding) -> frozenset[str]:
    """The lines of its list that are not needed, by the keys of their ticks."""
    rows = wedding.ready_ticks.all()
    return frozenset(row.key for row in rows if row.state == row.State.NOT_NEEDED)


def _held(weddings: Iterable[Wedding]) -> list[tuple[date, int, str]]:
    """Days near these weddings whose cards have no two copies yet: (date, wedding, names)."""
    firsts = [min(wedding.dates) for wedding in weddings if wedding.dates]
    if not firsts:
        return []
    ticked = decided.ReadyTick.objects.filter(
        wedding=OuterRef("wedding"), key=Concat(Value("copies."), OuterRef("key"))
    )
    span = (min(firsts) - timedelta(days=HOLD_DAYS), max(firsts))
    days = Day.objects.filter(~Exists(ticked), date__range=span).select_related("wedding")
    days = days.prefetch_related("wedding__partners").order_by("date", "pk")
    return [(day.date, day.wedding_id, day.wedding.names) for day in days]


def _holding(wedding: Wedding, held: list[tuple[date, int, str]]) -> tuple[str, ...]:
    if not wedding.dates:
        return ()
    first = min(wedding.dates)
    since = first - timedelta(days=HOLD_DAYS)
    near = [name for day, pk, name in held if since <= day < first and pk != wedding.pk]
    return tuple(dict.fromkeys(near))
