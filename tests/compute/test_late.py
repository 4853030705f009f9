"""A day that runs late: which ends are told, and by which clock."""

from dataclasses import replace
from datetime import date

import pytest

from planning.compute.day import plan_wedding
from planning.compute.late import LATES, ending_after, endings, running_days
from planning.compute.network.choices import Tail
from planning.compute.network.course import build_course
from planning.compute.network.cuts import cuts_after

from .briefs import ALL_LEGS, APART, BARN, group, make_brief, make_day, moment

FULL = (moment("ceremony", "14:00"), moment("meal", "17:30"))


def brief_of(*moments, **fields):
    return make_brief(
        make_day(*moments, hours="10:00-23:00"), groups=(group("All", extra=9),), **fields
    )


def running(*moments, **fields):
    (day,) = running_days(brief_of(*(moments or FULL), **fields))
    return day


def plan_after(day, key, late):
    found = ending_after(day, key, late)
    return found.plans[0] if found else None


def by_key(day):
    return {ending.block.key: ending for ending in endings(day)}


@pytest.mark.parametrize("rain", [False, True])
def test_the_day_is_the_one_that_every_other_page_shows(rain):
    brief = brief_of(*FULL, places=APART, legs=ALL_LEGS)
    (day,), (planned,) = running_days(brief, rain), plan_wedding(brief).days
    planned = planned.wet if rain else planned
    assert [(b.key, b.start, b.end) for b in day.blocks] == [
        (b.key, b.start, b.end) for b in planned.blocks
    ]
    assert day.promises == planned.promises


def test_every_block_before_a_fixed_time_is_told_for_every_lateness_and_none_after():
    day = running()
    told = endings(day)
    until = day.block("meal-1730").start
    expected = [b.key for b in day.blocks if b.kind != "travel" and b.start < until]
    last = [ending.block.key for ending in told if ending.block.start < until]
    assert last == expected
    assert all([plan.late for plan in ending.plans] == list(LATES) for ending in told)


def test_an_ordinary_block_is_late_from_its_own_end():
    day = running()
    course = build_course(day.problem)
    starts = {one.key: one.start for one in day.answer.planned}
    assert by_key(day)["ceremony-1400"].plans == cuts_after(course, starts, "ceremony-1400", LATES)


def test_drinks_that_give_way_are_late_from_the_end_the_page_shows():
    day = running()
    drinks = next(b for b in day.blocks if b.kind == "drinks")
    assert drinks.minutes > 15
    in_time = plan_after(day, drinks.key, 0)
    assert in_time.reached
    assert in_time.keeps == "meal-1730"
    assert not plan_after(day, drinks.key, 1).chance  # the call to the meal needs all that is left


def test_any_minute_can_be_asked_about_and_the_steps_say_the_same():
    day = running()
    for plan in by_key(day)["ceremony-1400"].plans:
        assert plan_after(day, "ceremony-1400", plan.late) == plan
    assert plan_after(day, "ceremony-1400", 37).late == 37
    assert plan_after(day, "nobody", 37) is None
    for beyond in (-1, 241):
        with pytest.raises(ValueError, match="240"):
            plan_after(day, "ceremony-1400", beyond)


def test_the_later_it_is_the_less_is_kept_without_cuts():
    day = running()
    chances = [plan_after(day, "ceremony-1400", late).chance for late in (200, 220, 240)]
    assert chances == [0, 0, 0]
    assert plan_after(day, "ceremony-1400", 240).otherwise == "move"


@pytest.mark.parametrize(
    ("moments", "fields"),
    [
        ((moment("ceremony", "14:00"), moment("meal", "14:10")), {}),
        (FULL, {"places": APART, "legs": ALL_LEGS[:1]}),
        ((), {"places": (replace(BARN, spot=None),)}),
    ],
    ids=["it does not fit", "nobody timed the drives", "nothing is fixed"],
)
def test_where_nothing_can_be_promised_nothing_is_told(moments, fields):
    brief = brief_of(*moments, **fields)
    (day,) = running_days(brief)
    assert day.blocks
    assert endings(day) == ()
    assert plan_after(day, day.blocks[0].key, 15) is None


def test_a_party_that_only_has_a_beginning_is_nothing_to_be_late_for():
    day = running(*FULL, moment("party", "21:00"), places=(replace(BARN, spot=None),))
    assert {plan.keeps for ending in endings(day) for plan in ending.plans} == {
        "ceremony-1400",
        "meal-1730",
    }


def test_a_year_that_is_a_slip_has_a_day_without_blocks():
    slip = make_brief(make_day(*FULL, on=date(9027, 6, 12), hours="10:00-23:00"))
    (day,) = running_days(slip)
    assert day.blocks == ()
    assert endings(day) == ()


@pytest.mark.parametrize("late", [60, 123, 150, 163, 200])
def test_a_time_moved_by_what_is_beyond_the_most_is_reached_with_the_same_cuts(late):
    """Recounted on the simulated days, with the time moved and everything else as it was."""
    day = running()
    ending = ending_after(day, "ceremony-1400", late)
    (plan,), most = ending.plans, ending.most
    assert most.reached
    later = late - most.late
    blocks = tuple(
        replace(b, fixed=b.fixed + later) if b.key == most.keeps else b for b in day.problem.blocks
    )
    course = build_course(replace(day.problem, blocks=blocks))
    starts = {one.key: one.start for one in day.answer.planned}
    first = [b.key for b in course.chain].index("ceremony-1400")
    last = [b.key for b in course.chain].index(most.keeps)
    by = {cut.key: cut for cut in most.cuts}
    choice = tuple(by.get(b.key) for b in course.chain[first + 1 : last])
    chance = Tail(course, starts, first, last, {}).chance(late, choice)
    assert chance >= most.chance >= day.problem.wanted
    assert plan.reached == (later <= 0)


def test_the_most_is_the_last_of_the_five_minute_steps_that_is_reached():
    day = running()
    most = ending_after(day, "ceremony-1400", 240).most
    assert most.late % 5 == 0
    assert plan_after(day, "ceremony-1400", most.late).reached
    assert not plan_after(day, "ceremony-1400", most.late + 5).reached
