"""The crossing in reverse: invented values become rows, and only where there are none yet."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from django.db import transaction

from intake import models as words
from planning.compute.values import Brief, Contact, Place
from planning.models import Decisions, Drive, Hours, PlaceSpot
from studio.models import Studio

from .agreed import agree
from .kit import lay_out_kit
from .questions import answer, ask_questions
from .ready import gain_experience, insure, tick
from .season import PUBLIC_IDS, season
from .wedding import PHOTOGRAPHER, DemoWedding


def load_season(today: date) -> list[words.Wedding]:
    """Make what is missing of the season, whole weddings only, and leave alone what is there."""
    with transaction.atomic():
        if not Studio.objects.exists():
            Studio.objects.create(
                name="Marigold Lane Photography",
                phone="07700 900140",
                email="hello@marigoldlane.example",
                home=PHOTOGRAPHER["home"],
            )
            ask_questions()
            insure(today)
            gain_experience(today)
            lay_out_kit()
    return [_made_once(demo, today) for demo in season(today)]


def is_strange() -> bool:
    """Whether somebody's own weddings are here and the demo never was.

    A wedding that somebody adds while they look around in the demo is theirs to keep there.
    """
    weddings = words.Wedding.objects.all()
    return weddings.exists() and not weddings.filter(public_id__in=PUBLIC_IDS).exists()


@transaction.atomic
def _made_once(demo: DemoWedding, today: date) -> words.Wedding:
    there = words.Wedding.objects.filter(public_id=demo.brief.wedding).first()
    if there:
        return there
    wedding = _make(demo)
    tick(wedding, today)
    return wedding


def _make(demo: DemoWedding) -> words.Wedding:
    brief = demo.brief
    wedding = words.Wedding.objects.create(
        public_id=brief.wedding,
        zone=brief.zone,
        language=demo.language,
        answers_due=brief.answers_due,
        matters=brief.matters,
        anything_else=brief.anything_else,
        sharing_note=brief.sharing_note,
        not_asked=sorted(brief.not_asked),
        **{each.kind: each.answer for each in brief.allowed},
        sent_at=demo.sent_at,
    )
    for i, p in enumerate(brief.partners):
        wedding.partners.create(
            **_row("partner", i), name=p.name, called=p.called, word=p.word, phone=p.phone,
            email=p.email,
        )  # fmt: skip
    _places_and_days(brief, wedding)
    _people(brief, wedding)
    _photographs(brief, wedding)
    answer(wedding, brief.own_answers)
    _decide(demo, wedding)
    _steps(demo, wedding)
    if demo.agreement:
        agree(demo.agreement, wedding)
    return wedding


def _steps(demo: DemoWedding, wedding: words.Wedding) -> None:
    for i, slug in enumerate(sorted(demo.brief.saved_steps)):
        wedding.steps.create(slug=slug, saved_at=demo.saved_at - timedelta(minutes=4 * i))
    for slug, typed in demo.drafts.items():
        wedding.steps.create(slug=slug, draft={name: [text] for name, text in typed.items()})


def _row(prefix: str, i: int) -> dict[str, str | int]:
    return {"key": f"{prefix}-{i + 1}", "position": i}


def _places_and_days(brief: Brief, wedding: words.Wedding) -> None:
    places = {p.key: _place(p, i, wedding) for i, p in enumerate(brief.places)}
    for leg in brief.legs:
        Drive.objects.create(
            wedding=wedding,
            origin=places.get(leg.origin),
            destination=places.get(leg.destination),
            map_minutes=leg.map_minutes,
        )
    position = 0
    for i, d in enumerate(brief.days):
        day = wedding.days.create(key=d.key, position=i, date=d.date, title=d.title)
        Hours.objects.create(day=day, starts=d.starts, ends=d.ends)
        for settled in d.settled:  # in the demo, only whose it is
            day.block_decisions.create(key=settled.key, who=settled.who)
        for m in d.moments:
            wedding.moments.create(
                key=m.key, position=position, day=day, kind=m.kind, title=m.title, at=m.at,
                unknown=m.unknown, place=places.get(m.place),
            )  # fmt: skip
            position += 1


def _place(p: Place, position: int, wedding: words.Wedding) -> words.Place:
    coordinator = p.coordinator or Contact("")
    place = wedding.places.create(
        key=p.key,
        position=position,
        name=p.name,
        uses=[use for use in words.Use.values if use in p.uses],
        address=p.address,
        coordinator=coordinator.name,
        coordinator_phone=coordinator.phone,
        coordinator_email=coordinator.email,
        wet_plan=p.wet_plan,
        not_allowed=p.not_allowed,
        note=p.note,
    )
    if p.spot:
        PlaceSpot.objects.create(
            place=place, latitude=p.spot.latitude, longitude=p.spot.longitude,
            ceremony_facing=p.ceremony_facing, group_facing=p.group_facing,
            skyline=[list(point) for point in p.skyline],
        )  # fmt: skip
    return place


def _people(brief: Brief, wedding: words.Wedding) -> None:
    kinds = words.Contact.List
    _contacts(wedding, kinds.HELPER, brief.helpers)
    _contacts(wedding, kinds.CONTACT, brief.contacts)
    _contacts(wedding, kinds.SUPPLIER, brief.suppliers)


def _contacts(wedding: words.Wedding, listed_as: str, people: Iterable[Contact]) -> None:
    for i, c in enumerate(people):
        wedding.contacts.create(
            **_row(listed_as, i), listed_as=listed_as, name=c.name, role=c.role, side=c.side,
            phone=c.phone, email=c.email,
        )  # fmt: skip


def _photographs(brief: Brief, wedding: words.Wedding) -> None:
    wishes = words.Group.Wish
    for i, g in enumerate(brief.groups):
        wedding.groups.create(
            key=g.key, position=i, title=g.title, people="\n".join(g.people), extra=g.extra,
            everyone=g.everyone, wish=wishes.MUST if g.must else wishes.NICE,
        )  # fmt: skip
    for i, m in enumerate(brief.must_haves):
        wedding.musthaves.create(**_row("photograph", i), text=m.text, kind=m.kind)
    for i, c in enumerate(brief.cares):
        wedding.carenotes.create(
            **_row("care", i), person=c.person, kind=c.kind, other=c.other, note=c.note
        )


def _decide(demo: DemoWedding, wedding: words.Wedding) -> None:
    Decisions.objects.create(
        wedding=wedding,
        style=demo.brief.style,
        meeting_at=demo.brief.meeting_at,
        visit_at=demo.brief.visit_at,
    )
