"""What a time that waits does to the times after it."""

import pytest

from planning.compute.late import ending_after, endings, running_days
from planning.compute.network.course import build_course
from planning.compute.network.simulate import simulate
from planning.compute.network.values import Cut

from .briefs import group, make_brief, make_day, moment

READY = moment("getting_ready", "10:00")
CEREMONY, MEAL = moment("ceremony", "12:30"), moment("meal", "15:00")
SPEECHES = moment("speeches", "17:40")


@pytest.fixture(scope="module")
def day():
    moments = (READY, CEREMONY, MEAL, SPEECHES)
    brief = make_brief(make_day(*moments, hours="09:00-23:00"), groups=(group("All", extra=9),))
    return next(iter(running_days(brief)))


def wake(day, key, late):
    return ending_after(day, key, late).wakes.get(late)


def test_a_plan_that_is_reached_leaves_nothing_behind_it(day):
    for ending in endings(day):
        assert all(plan.late not in ending.wakes for plan in ending.plans if plan.reached)


def test_the_time_that_waits_is_followed_to_the_next_one(day):
    found = wake(day, "meal-1500-meal_call", 60)
    assert (found.plan.after, found.plan.keeps) == ("meal-1500", "speeches-1740")
    assert day.problem.hours.at(found.at).strftime("%H:%M") == "16:00"
    later = found.onward.at - found.at  # the meal itself, as long as it is on 90 days of 100
    assert 100 < later <= 135
    assert found.plan.chance >= day.problem.wanted


def test_who_comes_late_to_getting_ready_photographs_the_short_form_of_it(day):
    found = wake(day, "d1-setup", 60)
    assert found.plan.keeps == "ceremony-1230"
    assert found.plan.reached
    assert found.plan.cuts[0] == Cut("getting-ready-1000", 45)


@pytest.mark.parametrize("late", [5, 10])
def test_a_wake_is_what_the_simulated_days_say_when_the_moved_time_is_planned(day, late):
    """The same chance, found by moving the block and running whole days (no cut plan asked)."""
    found = wake(day, "meal-1500-meal_call", late)
    assert found.plan.reached
    assert not found.plan.cuts
    course = build_course(day.problem)
    starts = {one.key: one.start for one in day.answer.planned}
    starts["meal-1500"] = found.at
    days = simulate(course, starts, None)
    speeches = next(block.fixed for block in course.chain if block.key == "speeches-1740")
    kept = sum(ready <= speeches for ready in days.ready["speeches-1740"])
    assert kept / len(days.ready["speeches-1740"]) == pytest.approx(found.plan.chance, abs=0.03)


def test_every_wake_ends_and_goes_forward(day):
    for ending in endings(day):
        for found in ending.wakes.values():
            times = []
            while found is not None:
                times.append(found.at)
                found = found.onward
            assert times == sorted(set(times))
