"""The crossing from the database: nothing that matters is lost on the way, in few queries."""

from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time
from itertools import pairwise

import pytest
from django.apps import apps
from django.db import connection
from django.test.utils import CaptureQueriesContext

from intake import models as words
from planning.brief import load_brief, load_briefs
from planning.compute.day import plan_wedding
from planning.compute.template import Template
from planning.models import (
    BagLine,
    BagNote,
    BlockDecision,
    DayDecision,
    Decisions,
    Drive,
    GroupDecision,
    GroupRule,
    Hours,
    KindBlock,
    KindOfDay,
    KitItem,
    PlaceSpot,
    ReadyItem,
    ReadyTick,
    SamePerson,
    StudioPicture,
)
from studio.models import Studio

# What a plan has no use for: what rows hang on, how they are sorted, and what only the link,
# the questionnaire or the season reads.
PLUMBING = {"id", "key", "wedding", "position"}
NOT_PLANNED = {
    "Wedding": {"link_nonce", "sent_at", "created_at", "language"},
    "StepState": {"draft", "saved_at"},  # that it was kept, not when: a test of its own
    "Moment": {"day"},  # a moment without one belongs to the only day: a test of its own
    "GroupDecision": {"group"},  # whose decision it is
    "BlockDecision": {"day", "suggested"},  # whose block it is, and who wished
    "DayDecision": {"held", "held_at"},  # what the page shows of the past
    "KindOfDay": {"title"},
    "KindBlock": {"kind_of_day"},  # whose block it is
    "Picture": {"file", "width", "height", "digest"},  # for pages
    "StudioPicture": {"file", "width", "height", "digest"},
    "Question": {"hint", "choices", "kind"},  # for those who answer; an answer has its own kind
    "Answer": {"question"},  # whose answer it is
    "KitItem": {"owner", "owner_from", "had_from", "back_by"},  # decide what goes
    "BagLine": {"packed", "item"},  # for the page; whose count it is
    "BagNote": {"frames_taken", "frames_expected", "charges_used"},  # of other weddings
    "Decisions": {"countries"},  # these three only the ready list reads
    "Studio": {
        "name",
        "phone",
        "email",
        "zone",
        "language",
        "cannot_promise",
        "keeps",
        "keep_months",
    }
    | {"explains", "insurance", "keep_months"},
}
# What is said of a plan at the meeting, or who may see it; the plan itself knows nothing of it.
BESIDE_THE_PLAN = {"AnswerNote", "MeetingPoint", "Agreement", "Assigned"}
# What left the house, and to whom.
BESIDE_THE_PLAN |= {"GivenEntry", "CalendarAddress", "SheetLink"}
# The ready list has its own crossing.
BESIDE_THE_PLAN |= {"ReadyTick", "ReadyItem", "Policy", "Experience"}
MODELS = [
    *(m for m in apps.get_app_config("intake").get_models() if m is not words.Wedding),
    words.Wedding,
    *(m for m in apps.get_app_config("planning").get_models() if m.__name__ not in BESIDE_THE_PLAN),
    Studio,
]


@pytest.fixture
def full(wedding):
    """A wedding in which every field that a plan may use holds a value of its own."""
    Studio.objects.create(
        name="S", home="Hallowby", group_minutes="3.5", person_seconds=12, walk_seconds=7
    )
    words.Wedding.objects.filter(pk=wedding.pk).update(
        matters="Warmth", anything_else="Socks", answers_due=date(2027, 3, 1), online="ask",
        children="no", gallery="two", supplier_use="yes", sharing_note="Not yet",
        not_asked=["step.pictures"],
    )  # fmt: skip
    words.Question.objects.create(wedding=wedding, text="Animals?", kind="yes_no", needed=True)
    asked = words.Question.objects.create(text="Made?", kind="short", position=1)
    words.Answer.objects.create(
        wedding=wedding, question=asked, kind="short", asked="Made?", value="A cake"
    )
    wedding.partners.filter(position=0).update(
        called="Tóta", word="bride", phone="07700 900001", email="thora@example.org"
    )
    day = wedding.days.get()
    words.Day.objects.filter(pk=day.pk).update(title="The day itself")
    Hours.objects.filter(day=day).update(starts=time(9, 15), ends=time(22, 45))
    place = words.Place.objects.create(
        wedding=wedding,
        key="barn",
        name="Orchard Barn",
        uses=["ceremony"],
        address="Pear Lane",
        coordinator="Ríona",
        coordinator_phone="01632 960101",
        coordinator_email="riona@example.org",
        wet_plan="Loft",
        not_allowed="Flash",
        note="Low beams",
    )
    PlaceSpot.objects.create(place=place, latitude=52.5, longitude=-2.5)
    Drive.objects.create(wedding=wedding, origin=None, destination=place, map_minutes=37)
    Drive.objects.create(wedding=wedding, origin=place, destination=None, map_minutes=38)
    DayDecision.objects.create(day=day, order=["d1"], wanted=80, notice=30)
    BlockDecision.objects.create(
        day=day, key="d1", kind="other", title="Ride", follows="d2", least=5, likely=6, most=7,
        at=time(15, 1), said=time(15, 2), wished=time(15, 3), opens=time(15, 4),
        closes=time(15, 5), place=place, who="both", short=3, droppable=True, importance=7,
        movable=False, wet_least=8, wet_likely=9, wet_most=10, wet_place=place,
    )  # fmt: skip
    words.Moment.objects.create(
        wedding=wedding, day=day, kind="ceremony", title="Vows", at=time(14, 5), place=place
    )
    words.Moment.objects.create(wedding=wedding, day=day, kind="cake", unknown=True)
    for listed_as in words.Contact.List.values:
        words.Contact.objects.create(
            wedding=wedding,
            listed_as=listed_as,
            name=f"Name {listed_as}",
            role=f"Role {listed_as}",
            side="second",
            phone=f"Phone {listed_as}",
            email=f"{listed_as}@example.org",
        )
    cousins = words.Group.objects.create(
        wedding=wedding, title="Cousins", people="Ana\n- Bo, Cy", extra=7, wish="nice"
    )
    dancers = words.Group.objects.create(wedding=wedding, title="Dancers", people="Di", wish="must")
    words.Group.objects.create(
        wedding=wedding, title="Gone", wish="must", removed_at=datetime(2027, 1, 5, tzinfo=UTC)
    )
    GroupDecision.objects.create(group=dancers, minutes="4.5", left_out=False)
    GroupRule.objects.create(wedding=wedding, kind="free", person="Ana", position=2)
    GroupRule.objects.create(wedding=wedding, kind="before", one=cousins, other=dancers)
    ReadyItem.objects.create(title="Sensors cleaned", when="evening")
    ReadyItem.objects.create(wedding=wedding, title="Ribbon packed", when="evening")
    ReadyTick.objects.create(
        wedding=wedding, key="beep.d1", state="not_needed", at=datetime(2027, 1, 1, tzinfo=UTC)
    )
    SamePerson.objects.create(wedding=wedding, name="Ana", other="Anna", is_same=True)
    SamePerson.objects.create(wedding=wedding, name="Bo", other="Bob", is_same=False)
    words.MustHave.objects.create(wedding=wedding, text="Watch", kind="party")
    words.CareNote.objects.create(
        wedding=wedding, person="Ana", kind="apart", other="Di", note="Since 2019"
    )
    for model in (words.Picture, StudioPicture):
        model.objects.create(wedding=wedding, line="Light", small="a/b.jpg", width=9, height=9)
    words.StepState.objects.create(
        wedding=wedding, slug="day", saved_at=datetime(2099, 1, 2, tzinfo=UTC)
    )
    words.StepState.objects.create(wedding=wedding, slug="care", draft={"person": "A"})
    camera = KitItem.objects.create(
        kind="body", title="First body", count=2, mount="M", card_form="SD", second_form="CF",
        power="B", slots=2, raw_mb=30, shots=380, wide=1, long=2, aperture=2, gb=3, speed=4,
        is_old=True, carried="Bag",
    )  # fmt: skip
    BagLine.objects.create(wedding=wedding, item=camera, count=1)
    BagNote.objects.create(wedding=wedding, cold=True)
    for number in range(2):  # what was counted elsewhere is reckoned with here
        elsewhere = words.Wedding.objects.create(public_id=f"elsewhere-{number}")
        BagNote.objects.create(
            wedding=elsewhere, frames_taken=900, frames_expected=1000, charges_used=2
        )
    own = KindOfDay.objects.create(key="own-0a1b2c3d4e5f", title="Barn days")
    KindBlock.objects.create(
        kind_of_day=own, key="vows", title="Vows", kind="ceremony", least=20, likely=30, most=45,
        use="ceremony", moment="ceremony", short=15, importance=9, delay_least=0, delay_likely=5,
        delay_most=20, movable=False, wet_least=10, wet_likely=20, wet_most=30,
    )  # fmt: skip
    Decisions.objects.filter(wedding=wedding).update(
        style=own.key,
        hand_order=["cousins"],
        nice_last=True,
        meeting_at=datetime(2027, 4, 1, 18, tzinfo=UTC),
        visit_at=datetime(2027, 6, 1, 18, tzinfo=UTC),
        visit_place=place,
        visit_block="portraits",
    )
    return wedding


def leaves(value):
    """Every plain value inside a frozen one."""
    if is_dataclass(value):
        for each in fields(value):
            yield from leaves(getattr(value, each.name))
    elif isinstance(value, (tuple, frozenset)):
        for each in value:
            yield from leaves(each)
    else:
        yield value


def changed(row, name):
    """Another value the field can hold."""
    field = row._meta.get_field(name)
    old = getattr(row, name)
    if field.choices:
        return next(value for value, _ in field.flatchoices if value not in {old, ""})
    other = {
        "BooleanField": lambda: not old,
        "DateField": lambda: date(2031, 5, 5),
        "DateTimeField": lambda: datetime(2099, 5, 5, 5, 5, tzinfo=UTC),
        "TimeField": lambda: time(16, 44),
        "FloatField": lambda: 11.25,
        "DecimalField": lambda: 9.5,
        "PositiveIntegerField": lambda: 41,
        "PositiveSmallIntegerField": lambda: 41,
        "JSONField": lambda: [[300, 12]] if name == "skyline" else ["party"],
        "SlugField": lambda: "changed",
        "ForeignKey": lambda: None,
        "OneToOneField": lambda: None,
    }.get(field.get_internal_type(), lambda: f"changed{'@example.org' if 'mail' in name else ''}")
    return "Asia/Kathmandu" if name == "zone" else other()


def cases():
    for model in MODELS:
        left_out = PLUMBING | NOT_PLANNED.get(model.__name__, set())
        for field in model._meta.concrete_fields:
            owner = field.is_relation and field.name in {"day", "place"} and field.one_to_one
            if field.name not in left_out and not owner:
                yield pytest.param(model, field.name, id=f"{model.__name__}.{field.name}")


@pytest.mark.parametrize(("model", "name"), list(cases()))
def test_a_change_of_any_field_that_matters_reaches_the_brief(full, model, name):
    before = load_brief(full)
    row = model.objects.exclude(**{name: None}).first() or model.objects.first()
    new = changed(row, name)
    assert new != getattr(row, name)
    model.objects.filter(pk=row.pk).update(**{name: new})
    if model is words.Moment and name == "unknown":
        assert before.days[0].moments[0].at is not None
    assert load_brief(full) != before


def test_every_field_of_the_brief_is_filled_from_the_database(full):
    brief = load_brief(full)
    empty = [f.name for f in fields(brief) if not getattr(brief, f.name)]
    assert empty == ["loose_moments"]


def test_the_brief_says_what_was_typed(full):
    brief = load_brief(full)
    (day,) = brief.days
    vows, cake = day.moments
    assert (day.title, day.starts, day.ends) == ("The day itself", time(9, 15), time(22, 45))
    assert (vows.title, vows.at, vows.place) == ("Vows", time(14, 5), "barn")
    assert (cake.at, cake.unknown) == (None, True)
    assert [(leg.origin, leg.destination, leg.map_minutes) for leg in brief.legs] == [
        (None, "barn", 37),
        ("barn", None, 38),
    ]
    group, _dancers = brief.groups
    assert (group.people, group.extra, group.everyone, group.must) == (
        ("Ana", "Bo", "Cy"),
        7,
        False,
        False,
    )
    assert (brief.group_base_minutes, brief.group_person_minutes) == (3.5, 0.2)
    assert brief.saved_steps == {"day"}
    assert f"{brief.meeting_at:%H:%M %Z}" == "19:00 BST"
    assert brief.names == "Tóta & Łukasz"
    assert [c.name for c in (*brief.contacts, *brief.helpers, *brief.suppliers)] == [
        "Name contact",
        "Name helper",
        "Name supplier",
    ]


def test_an_own_kind_of_day_brings_its_blocks_in_order_and_a_built_in_one_none(full):
    own = KindOfDay.objects.get()
    KindBlock.objects.create(
        kind_of_day=own, key="end", position=2, title="Pack", kind="pack", least=5, likely=5,
        most=9, wet_least=1, wet_likely=2, wet_most=3, wet_left_out=True,
    )  # fmt: skip
    KindBlock.objects.create(kind_of_day=own, key="run", position=1, title="Run", kind="other")
    vows = Template(
        "ceremony", "Vows", (20, 30, 45), "ceremony", moment="ceremony", short=15, importance=9,
        delay=(0, 5, 20), movable=False, wet=(10, 20, 30), key="vows",
    )  # fmt: skip
    run = Template("other", "Run", (0, 0, 0), "previous", key="run")
    end = Template("pack", "Pack", (5, 5, 9), "previous", wet=(0, 0, 0), key="end")
    assert load_brief(full).own_blocks == (vows, run, end)
    for style in ("winter", "own-gone"):
        Decisions.objects.update(style=style)
        assert load_brief(full).own_blocks == ()


def test_a_time_that_is_ticked_as_unknown_does_not_count(full):
    words.Moment.objects.filter(title="Vows").update(unknown=True)
    assert load_brief(full).days[0].moments[0].at is None


@pytest.mark.parametrize("field", ["coordinator", "coordinator_phone", "coordinator_email"])
def test_any_one_thing_known_of_who_is_in_charge_is_kept(wedding, field):
    place = words.Place.objects.create(wedding=wedding, name="Barn")
    assert load_brief(wedding).places[0].coordinator is None
    words.Place.objects.filter(pk=place.pk).update(**{field: "x@example.org"})
    assert "x@example.org" in set(leaves(load_brief(wedding).places[0].coordinator))


def test_a_moment_without_a_day_is_the_only_days_and_loose_where_there_are_more_or_none(wedding):
    words.Moment.objects.create(wedding=wedding, kind="meal", at=time(17))
    assert [len(load_brief(wedding).days[0].moments), load_brief(wedding).loose_moments] == [1, ()]
    second = words.Day.objects.create(wedding=wedding, date=date(2027, 6, 13))
    brief = load_brief(wedding)
    assert ([len(d.moments) for d in brief.days], len(brief.loose_moments)) == ([0, 0], 1)
    wedding.days.exclude(pk=second.pk).delete()
    wedding.days.all().delete()
    assert len(load_brief(wedding).loose_moments) == 1


def test_a_step_counts_once_it_was_kept(wedding):
    wedding.steps.create(slug="care", draft={})
    wedding.steps.create(slug="day", saved_at=datetime(2027, 1, 2, tzinfo=UTC))
    assert load_brief(wedding).saved_steps == {"day"}


def test_many_briefs_are_those_of_each_and_ask_no_more_than_one(full, other):
    weddings = words.Wedding.objects.filter(pk__in=[full.pk, other.pk]).order_by("pk")
    with CaptureQueriesContext(connection) as one:
        load_brief(full)
    with CaptureQueriesContext(connection) as two:
        briefs = load_briefs(weddings)
    assert briefs == [load_brief(full), load_brief(other)]
    assert len(two) == len(one)


def test_an_empty_wedding_without_decisions_has_a_brief_and_a_plan(db):
    wedding = words.Wedding.objects.create()
    brief = load_brief(wedding)
    assert brief.style == "one_place"
    assert plan_wedding(brief).days == ()


def test_the_brief_is_frozen_all_the_way_down(full):
    plain = (str, int, float, bool, type(None), date, time)
    assert all(isinstance(leaf, plain) for leaf in leaves(load_brief(full)))
    assert hash(load_brief(full)) == hash(load_brief(full))


def test_queries_do_not_grow_with_the_wedding(full):
    counts = []
    for size in (1, 8, 24):
        for i in range(size):
            day = words.Day.objects.create(wedding=full, date=date(2028, 1, 1 + i % 28))
            Hours.objects.create(day=day)
            DayDecision.objects.create(day=day)
            place = words.Place.objects.create(wedding=full, name=f"Place {i}")
            BlockDecision.objects.create(day=day, key="b", place=place)
            PlaceSpot.objects.create(place=place, latitude=1, longitude=1)
            Drive.objects.create(wedding=full, destination=place, map_minutes=i)
            words.Moment.objects.create(wedding=full, day=day, kind="other", place=place)
            words.Group.objects.create(wedding=full, title="G", people="A\nB")
            words.Contact.objects.create(wedding=full, listed_as="helper", name="H")
            KindBlock.objects.create(kind_of_day=KindOfDay.objects.get(), title="B", kind="other")
        with CaptureQueriesContext(
            connection,
        ) as queries:
            load_brief(full)
        counts.append(len(queries))
    assert all(one == other for one, other in pairwise(counts))
    # One for each table that is read, and for three of them what was taken out.
    assert counts[0] <= 25 + 3 + 4 + 2  # the last two are the lines of the ready list
