"""The whole of a plan, and that no brief the models can hold makes one fail."""

from dataclasses import replace
from datetime import date, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning.compute.blocks import ONE_PLACE, STYLES
from planning.compute.day import plan_wedding
from planning.compute.settled import BOTH, EITHER, ME, SECOND, Settled, Wet
from planning.compute.values import (
    Brief,
    Care,
    Contact,
    DayBrief,
    Group,
    Leg,
    Moment,
    Partner,
    Place,
    Spot,
)

from .briefs import EVERY_USE, group, make_brief, make_day, moment

KINDS = "getting_ready ceremony congratulations drinks meal speeches cake dance party end other"
ZONES = [
    "Europe/London",
    "Pacific/Auckland",
    "Pacific/Honolulu",
    "Asia/Kathmandu",
    "America/St_Johns",
    "Australia/Lord_Howe",  # clocks change by half an hour
    "Antarctica/Troll",  # and by two
    "Pacific/Apia",
    "UTC",
]
CHANGES = [date(2027, 3, 27), date(2027, 3, 28), date(2027, 10, 30), date(2027, 10, 31)]
PLACE_KEYS = ["p0", "p1", "p2"]
names = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=12)
names |= st.sampled_from(["Žáček", "Zacek", "O’Neill", "Ana", "ANA", "👰🏽‍♀️", "שרה"])
times = st.none() | st.times()
near = st.dates(date(2026, 1, 1), date(2029, 12, 31))
days_of = near | near | st.sampled_from(CHANGES) | st.dates()


@st.composite
def moments(draw, prefix):
    count = draw(st.integers(0, 12))
    return tuple(
        Moment(
            f"{prefix}-m{i}",
            draw(st.sampled_from(KINDS.split())),
            draw(names),
            draw(times),
            draw(st.booleans()),
            draw(st.sampled_from([None, *PLACE_KEYS, "gone"])),
        )
        for i in range(count)
    )


SPOTS = [Spot(52.66, -2.86), Spot(69.65, 18.96), Spot(-45.03, 168.66), Spot(90, 0), Spot(0, 180)]
spots = st.builds(Spot, st.floats(-90, 90), st.floats(-180, 180))
places = st.lists(
    st.builds(
        Place,
        key=st.sampled_from(PLACE_KEYS),
        name=names,
        uses=st.frozensets(st.sampled_from(sorted(EVERY_USE))),
        spot=st.none() | st.sampled_from(SPOTS) | spots,
    ),
    max_size=3,
    unique_by=lambda place: place.key,
).map(tuple)
legs = st.lists(
    st.builds(
        Leg,
        st.sampled_from([None, *PLACE_KEYS]),
        st.sampled_from([None, *PLACE_KEYS]),
        st.integers(0, 32767),
    ),
    max_size=6,
).map(tuple)
cares = st.builds(Care, st.sampled_from(["apart", "no_photo", "seat"]), names, names | st.just(""))
extras = st.integers(0, 400) | st.just(2_147_483_647)


def settled_day(day, decided):
    settled, order = decided
    return replace(day, settled=settled, order=order)


@st.composite
def decisions(draw, prefix):
    """Anything the photographer may have settled, also about blocks that are no longer there."""
    keys = [f"{prefix}-{kind}" for kind in sorted({b.kind for b in ONE_PLACE})]
    keys += [f"{prefix}-m{i}" for i in range(12)] + ["own-1", "own-2"]
    three = st.none() | st.lists(st.integers(0, 1440), min_size=3, max_size=3).map(sorted).map(
        tuple
    )
    found = []
    for key in draw(st.lists(st.sampled_from(keys), max_size=6, unique=True)):
        own = key.startswith("own")
        place = st.sampled_from([None, None, *PLACE_KEYS])
        found.append(
            Settled(
                key,
                kind=draw(st.sampled_from(["other", "rest", "portraits"])) if own else "",
                follows=draw(st.sampled_from(keys)),
                minutes=draw(three),
                at=draw(times),
                loose=draw(st.booleans()),
                wished=draw(times),
                opens=draw(times),
                closes=draw(times),
                place=draw(place),
                who=draw(st.sampled_from(["", ME, SECOND, BOTH, EITHER])),
                short=draw(st.none() | st.integers(0, 1440)),
                droppable=draw(st.none() | st.booleans()),
                importance=draw(st.none() | st.integers(1, 10)),
                movable=draw(st.none() | st.booleans()),
                left_out=draw(st.booleans()),
                wet=Wet(draw(three), draw(place), draw(st.booleans())),
            )
        )
    return tuple(found), tuple(draw(st.lists(st.sampled_from(keys), max_size=8, unique=True)))


@st.composite
def briefs(draw):
    dates = draw(st.lists(days_of, max_size=3, unique=True))
    return Brief(
        wedding="w",
        partners=tuple(draw(st.lists(st.builds(Partner, names, names), max_size=2))),
        zone=draw(st.sampled_from(ZONES)),
        style=draw(st.sampled_from([*STYLES, "gone"])),
        days=tuple(
            settled_day(
                DayBrief(f"d{i}", day, "", draw(times), draw(times), draw(moments(f"d{i}"))),
                draw(decisions(f"d{i}") | st.just(((), ()))),
            )
            for i, day in enumerate(sorted(dates))
        ),
        loose_moments=draw(moments("loose")),
        places=draw(places),
        legs=draw(legs),
        helpers=tuple(draw(st.lists(st.builds(Contact, names), max_size=2))),
        groups=tuple(
            Group(f"g{i}", draw(names), tuple(people), draw(extras))
            for i, people in enumerate(draw(st.lists(st.lists(names, max_size=8), max_size=6)))
        ),
        cares=tuple(draw(st.lists(cares, max_size=3))),
        group_base_minutes=draw(st.sampled_from([0.5, 2.5, 15.0])),
        group_person_minutes=draw(st.sampled_from([0.0, 0.1, 1.0, 1 / 60])),
    )


@settings(max_examples=250, deadline=None, suppress_health_check=list(HealthCheck))
@given(briefs())
def test_a_plan_never_fails_and_always_holds_together(brief):
    plan = plan_wedding(brief)
    assert len(plan.days) == len(brief.days)
    assert sorted(t.group.key for t in plan.turns) == sorted(g.key for g in brief.groups)
    for finding in plan.findings:
        assert finding.message % finding.values
    for day in plan.days:
        assert_sound(day)


def assert_sound(day):
    if not day.shortfalls:
        for before, after in pairwise(day.blocks):
            assert before.end.timestamp() <= after.start.timestamp(), (before, after)
    for block in day.blocks:
        assert block.minutes > 0 or block.untimed
        assert (block.end.timestamp() - block.start.timestamp()) % 60 == 0
    for gap in day.shortfalls:
        assert gap.short_minutes > 0
        room = (gap.until.timestamp() - gap.starts.timestamp()) / 60
        assert sum(b.minutes for b in gap.between) + gap.drives - room == gap.short_minutes
    for kept in (*day.promises, *day.windows):
        assert 0 <= kept.chance <= 1
    if day.leave_home:
        assert day.leave_home.timestamp() <= day.blocks[0].start.timestamp()
    for other in (day.wet, day.second):
        if other:
            assert_sound(other)


def test_an_empty_wedding_has_a_plan_that_says_what_it_needs():
    plan = plan_wedding(Brief("w", (), "Europe/London"))
    assert plan.days == plan.turns == ()
    assert {f.code for f in plan.findings} >= {"nothing_holds_the_day", "ceremony_time"}


@pytest.mark.parametrize("year", [1, 1899, 2200, 9999])
def test_a_year_that_cannot_be_right_is_asked_about(year):
    day = make_day(moment("ceremony", "14:00"), on=date(year, 12, 31), hours="10:00-02:00")
    plan = plan_wedding(make_brief(day))
    assert plan.days[0].blocks == ()
    assert "nothing_holds_the_day" in {f.code for f in plan.findings}


def test_forty_moments_and_three_hundred_names_are_planned():
    many = [
        replace(moment("other", (time(10, 0) if i < 20 else time(20, 0)).isoformat()), key=f"m{i}")
        for i in range(40)
    ]
    crowd = group("Everybody", *(f"Guest {i}" for i in range(300)))
    plan = plan_wedding(make_brief(make_day(*many), groups=(crowd,)))
    (day,) = plan.days
    assert {m.key for m in many} <= {b.key for b in day.blocks}
    assert plan.group_minutes == 32.5


def test_two_days_share_one_order_of_groups_on_the_main_day():
    first = make_day(moment("ceremony", "11:00"), key="fri")
    second = make_day(
        moment("ceremony", "14:00"), moment("meal", "17:00"), on=date(2027, 6, 13), key="sat"
    )
    plan = plan_wedding(make_brief(first, second, groups=(group("All", extra=9),)))
    assert [[b.kind for b in d.blocks].count("groups") for d in plan.days] == [0, 1]
    assert plan.turns[0].starts.date() == second.date


def test_a_party_past_midnight_belongs_to_its_own_day():
    first = make_day(moment("ceremony", "14:00"), moment("party", "00:30"), key="fri")
    second = make_day(moment("ceremony", "11:00"), on=date(2027, 6, 13), key="sat")
    plan = plan_wedding(make_brief(first, second))
    party = next(b for b in plan.days[0].blocks if b.kind == "party")
    assert (party.start.date(), f"{party.start:%H:%M}") == (second.date, "00:30")
    assert "party" not in {b.kind for b in plan.days[1].blocks}


def test_the_same_brief_is_always_the_same_plan():
    brief = make_brief(make_day(moment("ceremony", "14:00")), groups=(group("All", extra=9),))
    assert plan_wedding(brief) == plan_wedding.__wrapped__(brief)


def test_every_place_has_a_sheet_also_without_coordinates():
    brief = make_brief(make_day(moment("ceremony", "14:00")), places=(Place("p", "Somewhere"),))
    (sheet,) = plan_wedding(brief).days[0].light
    assert sheet.events == ()


def test_whole_days_are_apart_by_their_dates():
    day = make_day(moment("ceremony", "14:00"))
    later = replace(day, date=day.date + timedelta(days=400), key="d2")
    plan = plan_wedding(make_brief(day, later))
    assert [d.blocks[0].start.date() for d in plan.days] == [day.date, later.date]
