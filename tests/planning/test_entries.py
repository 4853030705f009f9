"""What a calendar says of itself: of the weeks before a day, and of the evening before it."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.planned import Turn
from planning.compute.values import Contact, Group
from planning.entries import list_entries
from tests.planning.plans import MILL, make_block, make_plan, with_leave_home

LONDON = ZoneInfo("Europe/London")
JUNE = date(2027, 6, 12)


def found(plan, key):
    return next(each for each in list_entries(plan) if each.key == key)


def at(hour, minute=0, day=12):
    return datetime(2027, 6, day, hour, minute, tzinfo=LONDON)


@pytest.fixture
def plan():
    return make_plan(make_block(JUNE, "14:00", 30, "Europe/London", fixed=True))


def test_the_couples_final_word_is_due_ten_days_before_the_first_day(plan):
    entry = found(plan, "final")
    assert (entry.start, entry.end) == (date(2027, 6, 2), date(2027, 6, 3))
    assert entry.summary == "Final confirmation: Łukasz & Ánh"
    assert entry.lines


def test_getting_ready_begins_the_evening_before_and_rings_in_the_morning_too(plan):
    entry = found(plan, "before/d1")
    assert entry.start == at(17, day=11)
    assert entry.alarms == (timedelta(hours=-8), timedelta())
    assert not any("you leave home" in line for line in entry.lines)
    ready = found(with_leave_home(plan, at(7, 5)), "before/d1")
    assert "- Set an alarm: you leave home at 07:05" in ready.lines


def test_between_two_days_getting_ready_waits_for_the_end_of_the_first_and_rings_once(plan):
    (day,) = plan.days
    late = make_block(JUNE, "22:00", 90, "Europe/London")
    first = replace(day, blocks=(late,))
    second = replace(day, brief=replace(day.brief, key="d2", date=date(2027, 6, 13)))
    entry = found(replace(plan, days=(first, second)), "before/d2")
    assert entry.start == at(23, 30)
    assert entry.alarms == (timedelta(),)


def test_a_year_that_is_a_slip_has_no_day_before_it(plan):
    (day,) = plan.days
    slip = replace(day, brief=replace(day.brief, date=date.min), blocks=())
    assert list_entries(replace(plan, days=(slip,))) == ()


def test_a_wedding_without_a_date_has_nothing_to_get_ready_for(plan):
    assert list_entries(replace(plan, days=())) == ()


def test_the_groups_say_how_many_they_are(plan):
    groups = make_block(JUNE, "15:00", 40, "Europe/London", "g", kind="groups", title="Groups")
    turns = tuple(Turn(n, Group(f"g{n}", "Family"), 3.0) for n in (1, 2, 3))
    (day,) = plan.days
    plan = replace(plan, days=(replace(day, blocks=(groups,)),), turns=turns)
    assert found(plan, "block/g").lines[0] == "3 group photographs"


def test_who_is_in_charge_is_the_contact_and_nobody_else_is_named(plan):
    entry = found(plan, "block/b1")
    assert entry.contact == "Þóra Žáček, 01632 960123"
    assert entry.lines == ("Fixed time", "In charge there: Þóra Žáček, 01632 960123")
    (day,) = plan.days
    (block,) = day.blocks
    nobody = replace(block, place=replace(MILL, coordinator=Contact("")), note="Her father drinks")
    alone = found(replace(plan, days=(replace(day, blocks=(nobody,)),)), "block/b1")
    assert (alone.contact, alone.lines) == ("", ("Fixed time",))
