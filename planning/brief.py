"""The crossing: database rows become frozen values. With brief_*.py the only way across."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db.models import QuerySet
from django.utils.translation import override

from intake import models as words
from intake.names import split_names
from intake.own_models import Question
from studio.models import Studio

from . import models as decided
from .brief_asked import asked_values
from .brief_bag import Kit, bag_values
from .brief_kinds import blocks_of_kinds
from .compute.people import person_key
from .compute.ready_values import Item
from .compute.settled import Settled, Wet
from .compute.template import Minutes, Template
from .compute.values import (
    Brief,
    Care,
    Contact,
    DayBrief,
    Group,
    GroupRule,
    Leg,
    Moment,
    MustHave,
    Partner,
    Picture,
    Place,
    Spot,
)
from .ready_brief import evening_items, evening_items_of, spared
from .taken_out import READ_TAKEN_OUT

READ_WITH = (
    "partners",
    "days__hours",
    "days__decision",
    "days__block_decisions",
    "moments",
    "places__spot",
    "contacts",
    "groups__decision",
    "group_rules",
    "same_people",
    "musthaves",
    "carenotes",
    "pictures",
    "studiopictures",
    "steps",
    "drives",
    "ready_items",
    "ready_ticks",
    "questions",
    "own_answers",
    "bag_lines",
    *READ_TAKEN_OUT,
)


@dataclass(frozen=True)
class Shared:
    """What every wedding rests on, read once for all of them."""

    studio: Studio
    questions: list[Question]
    kinds: dict[str, tuple[Template, ...]]
    kit: Kit
    evenings: list[Item]

    @classmethod
    def read(cls) -> Shared:
        questions = list(Question.objects.filter(wedding=None))
        return cls(Studio.get(), questions, blocks_of_kinds(), Kit.read(), evening_items())


def load_brief(wedding: words.Wedding) -> Brief:
    """Read everything a plan rests on, in a fixed number of queries.

    Names of ours stand in it untranslated, whoever asks: one wedding has one plan. Pages say them
    in the reader's language.
    """
    (brief,) = load_briefs(words.Wedding.objects.filter(pk=wedding.pk))
    return brief


def load_briefs(weddings: QuerySet[words.Wedding]) -> list[Brief]:
    """Those of many weddings, in their order and in the same number of queries as that of one."""
    shared = Shared.read()
    weddings = weddings.select_related("decisions", "bag_note").prefetch_related(*READ_WITH)
    with override(settings.LANGUAGE_CODE):
        return [_brief(wedding, shared) for wedding in weddings]


def _brief(wedding: words.Wedding, shared: Shared) -> Brief:
    studio = shared.studio
    decisions = getattr(wedding, "decisions", None) or decided.Decisions()
    keys = {place.pk: place.key for place in wedding.places.all()}
    days = tuple(_day(day, wedding, keys) for day in wedding.days.all())
    return Brief(
        wedding=wedding.public_id,
        partners=tuple(
            Partner(p.name, p.short, p.word, p.phone, p.email) for p in wedding.partners.all()
        ),
        zone=wedding.zone,
        style=decisions.style,
        own_blocks=shared.kinds.get(decisions.style, ()),
        days=days,
        loose_moments=tuple(
            _moment(m, keys) for m in wedding.moments.all() if m.day_id is None and len(days) != 1
        ),
        places=tuple(_place(place) for place in wedding.places.all()),
        legs=tuple(
            Leg(keys.get(d.origin_id), keys.get(d.destination_id), d.map_minutes)
            for d in wedding.drives.all()
        ),
        contacts=_contacts(wedding, words.Contact.List.CONTACT),
        helpers=_contacts(wedding, words.Contact.List.HELPER),
        suppliers=_contacts(wedding, words.Contact.List.SUPPLIER),
        groups=tuple(_group(group) for group in wedding.groups.all()),
        presence=decisions.presence,
        order_by=decisions.order_by,
        hand_order=tuple(map(str, decisions.hand_order)),
        nice_last=decisions.nice_last,
        group_rules=_rules(wedding),
        same_people=_pairs(wedding, is_same=True),
        two_people=_pairs(wedding, is_same=False),
        must_haves=tuple(
            MustHave(m.text, m.kind, m.get_kind_display(), m.key) for m in wedding.musthaves.all()
        ),
        cares=tuple(
            Care(c.kind, c.person, c.other, c.note, c.get_kind_display())
            for c in wedding.carenotes.all()
        ),
        pictures=(
            *(Picture(p.line, p.small) for p in wedding.pictures.all()),
            *(Picture(p.line, p.small, own=True) for p in wedding.studiopictures.all()),
        ),
        matters=wedding.matters,
        anything_else=wedding.anything_else,
        **asked_values(wedding, shared.questions),
        saved_steps=frozenset(s.slug for s in wedding.steps.all() if s.saved_at),
        evening_lines=tuple(
            (item.key, item.title) for item in (*shared.evenings, *evening_items_of(wedding))
        ),
        spared=spared(wedding),
        home=studio.home,
        group_base_minutes=float(studio.group_minutes),
        group_person_minutes=studio.person_seconds / 60,
        group_walk_minutes=studio.walk_seconds / 60,
        meeting_at=_local(decisions.meeting_at, wedding),
        visit_at=_local(decisions.visit_at, wedding),
        visit_place=keys.get(decisions.visit_place_id),
        visit_block=decisions.visit_block,
        **bag_values(wedding, shared.kit),
        answers_due=wedding.answers_due,
    )


def _local(at: datetime | None, wedding: words.Wedding) -> datetime | None:
    return at.astimezone(ZoneInfo(wedding.zone)) if at else None


def _day(day: words.Day, wedding: words.Wedding, keys: dict[int, str]) -> DayBrief:
    only_day = len(wedding.days.all()) == 1
    hours = getattr(day, "hours", None)
    decided_day = getattr(day, "decision", None) or decided.DayDecision()
    moments = [
        _moment(m, keys)
        for m in wedding.moments.all()
        if m.day_id == day.pk or (m.day_id is None and only_day)
    ]
    return DayBrief(
        key=day.key,
        date=day.date,
        title=day.title,
        starts=hours.starts if hours else None,
        ends=hours.ends if hours else None,
        moments=tuple(moments),
        settled=tuple(_settled(block, keys) for block in day.block_decisions.all()),
        order=tuple(map(str, decided_day.order)),
        wanted=decided_day.wanted / 100,
        notice_minutes=decided_day.notice,
    )


def _settled(block: decided.BlockDecision, keys: dict[int, str]) -> Settled:
    return Settled(
        key=block.key,
        kind=block.kind,
        title=block.title,
        follows=block.follows,
        minutes=_three(block.least, block.likely, block.most),
        at=block.at,
        said=block.said,
        loose=block.loose,
        wished=block.wished,
        opens=block.opens,
        closes=block.closes,
        place=keys.get(block.place_id),
        who=block.who,
        short=block.short,
        droppable=block.droppable,
        importance=block.importance,
        movable=block.movable,
        left_out=block.left_out,
        wet=Wet(
            _three(block.wet_least, block.wet_likely, block.wet_most),
            keys.get(block.wet_place_id),
            block.wet_left_out,
        ),
    )


def _three(least: int | None, likely: int | None, most: int | None) -> Minutes | None:
    return None if likely is None else (least or 0, likely, most or likely)


def _moment(moment: words.Moment, keys: dict[int, str]) -> Moment:
    return Moment(
        key=moment.key,
        kind=moment.kind,
        title=str(moment),
        at=None if moment.unknown else moment.at,
        unknown=moment.unknown,
        place=keys.get(moment.place_id),
    )


def _place(place: words.Place) -> Place:
    spot = getattr(place, "spot", None)
    in_charge = (place.coordinator, place.coordinator_phone, place.coordinator_email)
    return Place(
        key=place.key,
        name=place.name,
        uses=frozenset(place.uses),
        address=place.address,
        spot=Spot(spot.latitude, spot.longitude) if spot else None,
        coordinator=Contact(in_charge[0], "", "", *in_charge[1:]) if any(in_charge) else None,
        wet_plan=place.wet_plan,
        not_allowed=place.not_allowed,
        note=place.note,
        ceremony_facing=spot.ceremony_facing if spot else None,
        group_facing=spot.group_facing if spot else None,
        skyline=tuple((bearing, height) for bearing, height in spot.skyline) if spot else (),
    )


def _contacts(wedding: words.Wedding, listed_as: str) -> tuple[Contact, ...]:
    return tuple(
        Contact(c.name, c.role, c.side, c.phone, c.email)
        for c in wedding.contacts.all()
        if c.listed_as == listed_as
    )


def _rules(wedding: words.Wedding) -> tuple[GroupRule, ...]:
    keys = {group.pk: group.key for group in wedding.groups.all()}
    return tuple(
        GroupRule(
            rule.kind,
            keys.get(rule.one_id) or rule.person,
            keys.get(rule.other_id, ""),
            rule.position or 0,
        )
        for rule in sorted(wedding.group_rules.all(), key=lambda rule: rule.pk)  # as they were made
    )


def _pairs(wedding: words.Wedding, is_same: bool) -> tuple[tuple[str, str], ...]:
    return tuple(
        (person_key(pair.name), person_key(pair.other))
        for pair in wedding.same_people.all()
        if pair.is_same == is_same
    )


def _group(group: words.Group) -> Group:
    decision = getattr(group, "decision", None) or decided.GroupDecision()
    return Group(
        key=group.key,
        title=group.title,
        people=tuple(split_names(group.people)),
        extra=group.extra,
        everyone=group.everyone,
        must=group.wish == words.Group.Wish.MUST,
        minutes=None if decision.minutes is None else float(decision.minutes),
        left_out=decision.left_out,
    )
