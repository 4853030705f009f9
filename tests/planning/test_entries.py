"""What a calendar says of itself: of the weeks before a day, and of the evening before it."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.planned import Turn
from planning.compute.values import Contact, Group
from planning.entries import list_entries, list_studio_entries
from planning.models import Policy
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


def test_the_evening_before_has_the_ready_lists_own_words_and_the_studios_lines(plan):
    brief = replace(plan.brief, evening_lines=(("own-s", "Sensors cleaned"),))
    lines = found(replace(plan, brief=brief), "before/d1").lines
    for words in ("Cards formatted, in the cameras that use them", "Sensors cleaned"):
        assert f"- {words}" in lines


def test_the_evening_before_leaves_out_what_is_not_needed_that_day(plan):
    own = (("own-s", "Sensors cleaned"), ("own-l", "Ladder in the car"))
    spared = frozenset({"cards.d1", "own-s.d1", "own-l.d2"})
    brief = replace(plan.brief, evening_lines=own, spared=spared)
    lines = found(replace(plan, brief=brief), "before/d1").lines
    for words in ("Cards formatted, in the cameras that use them", "Sensors cleaned"):
        assert f"- {words}" not in lines
    assert "- Ladder in the car" in lines


def test_the_copies_ring_in_the_night_and_the_other_place_the_day_after(plan):
    """The hours end at 23:00: three hours later it is two, and the copies take the one before."""
    (day,) = plan.days
    timed = replace(day, brief=replace(day.brief, starts=time(9), ends=time(23)))
    timed = replace(plan, days=(timed,))
    copies, elsewhere = found(timed, "copies/d1"), found(timed, "elsewhere/d1")
    assert (copies.start, copies.end) == (at(1, day=13), at(2, day=13))
    assert (elsewhere.start, elsewhere.end) == (at(17, 30, day=13), at(18, day=13))
    assert copies.alarms == elsewhere.alarms == (timedelta(),)
    assert copies.summary == "Two copies of every card made, and opened to check: Łukasz & Ánh"


def test_the_night_between_two_days_is_told_by_the_hours_that_pass(plan):
    """On 31 October 2027 one o'clock comes twice in London (Directive 2000/84/EC)."""
    (day,) = plan.days
    brief = replace(day.brief, date=date(2027, 10, 30), starts=time(9), ends=time(23))
    entry = found(replace(plan, days=(replace(day, brief=brief),)), "copies/d1")
    assert entry.end == datetime(2027, 10, 31, 1, tzinfo=LONDON, fold=1)
    assert entry.end.timestamp() - entry.start.timestamp() == 3600


def test_the_end_of_an_insurance_rings_four_weeks_before_in_the_seasons_calendar(db):
    assert list_studio_entries() == ()
    Policy.objects.create(
        kind="liability", insurer="Larkmoor", starts=date(2026, 7, 1), ends=date(2027, 6, 30)
    )
    (entry,) = list_studio_entries()
    assert entry.summary == "Insurance ends: Public liability, Larkmoor"
    assert (entry.start, entry.end) == (date(2027, 6, 30), date(2027, 7, 1))
    (alarm,) = entry.alarms
    assert datetime(2027, 6, 30) + alarm == datetime(2027, 6, 2, 9)
