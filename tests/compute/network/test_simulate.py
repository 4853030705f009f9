from dataclasses import replace

import pytest

from planning.compute.network import Law
from planning.compute.network.course import build_course
from planning.compute.network.draws import DAYS, minutes
from planning.compute.network.simulate import promises, simulate, windows
from tests.compute.network.days import at, block, church_day, day, full_day


def chances(problem, starts):
    course = build_course(problem)
    return {p.key: p.chance for p in promises(course, simulate(course, starts))}


def certain(meal):
    problem = day(block("a", 60, fixed="14:00"), block("meal", 10, fixed=meal))
    return chances(problem, {"a": at("14:00"), "meal": at(meal)})["meal"]


def test_what_never_varies_is_kept_on_all_days_or_on_none():
    assert certain("15:00") == 1
    assert certain("14:59") == 0


def test_a_day_by_hand():
    """One block, one drive: ready when both are over, on each single day."""
    problem = day(
        block("a", (20, 30, 50), fixed="14:00", place="x", delay=(0, 5, 20)),
        block("b", 10, fixed="15:00", place="y"),
        legs=[("x", "y", 12)],
    )
    course = build_course(problem)
    days = simulate(course, {"a": at("14:00"), "b": at("15:00")})
    delay = minutes("delay a", Law(0, 5, 20))
    lasts = minutes("block a", Law(20, 30, 50))
    drives = minutes("drive b", Law(10.5, 12, 18))
    ready = [at("14:00") + delay[i] + lasts[i] + drives[i] for i in range(DAYS)]
    assert days.ready["b"] == pytest.approx(ready)
    assert days.ends["b"] == pytest.approx([max(at("15:00"), r) + 10 for r in ready])
    kept = sum(r <= at("15:00") for r in ready) / DAYS
    assert 0.5 < promises(course, days)[1].chance == kept < 1


def test_nothing_starts_before_it_is_planned():
    problem = full_day()
    course = build_course(problem)
    starts = {b.key: 600 + 60 * i for i, b in enumerate(course.blocks)}
    days = simulate(course, starts)
    for b in course.blocks:
        assert min(days.ends[b.key]) >= starts[b.key] + b.law.least


STARTS = {
    "setup": at("09:30"),
    "prep": at("10:00"),
    "ceremony": at("13:30"),
    "guests": at("14:45"),
    "confetti": at("14:15"),
    "groups": at("14:40"),
    "details": at("15:50"),
    "portraits": at("16:05"),
    "call": at("17:10"),
    "meal": at("17:25"),
    "speeches": at("19:30"),
    "golden": at("20:05"),
    "dance": at("21:15"),
}


@pytest.mark.parametrize("key", ["prep", "ceremony", "confetti", "groups", "portraits", "meal"])
def test_no_chance_falls_when_a_block_gets_shorter(key):
    problem = full_day()
    shorter = tuple(
        replace(b, law=Law(b.law.least - 5, b.law.likely - 5, b.law.most - 8))
        if b.key == key
        else b
        for b in problem.blocks
    )
    before, after = chances(problem, STARTS), chances(replace(problem, blocks=shorter), STARTS)
    assert all(after[name] >= before[name] for name in before)
    assert key == "prep" or after != before


def test_every_minute_of_delay_costs_chance():
    def call(minutes):
        blocks = tuple(
            replace(b, start_delay=Law(minutes, minutes + 5, minutes + 20))
            if b.key == "ceremony"
            else b
            for b in full_day().blocks
        )
        return chances(replace(full_day(), blocks=blocks), STARTS)["call"]

    falling = [call(minutes) for minutes in (0, 10, 20, 30, 40)]
    assert falling == sorted(falling, reverse=True)
    assert falling[0] > 0.7 > 0.3 > falling[-1]


def test_others_wait_for_hers_and_she_for_others():
    problem = day(
        block("a", 30, fixed="14:00"),
        block("guests", 50, photographer=False, after=("a",)),
        block("meal", 30, fixed="15:00", after=("guests",)),
    )
    starts = {"a": at("14:00"), "guests": at("14:30"), "meal": at("15:00")}
    assert chances(problem, starts)["meal"] == 0


def test_a_window_is_kept_when_the_whole_block_ends_in_it():
    problem = day(block("a", (10, 20, 30), window=("19:40", "20:05")))
    course = build_course(problem)
    (window,) = windows(course, simulate(course, {"a": at("19:40")}))
    assert window.chance == pytest.approx(1 - 5**2 / (20 * 10), abs=1 / DAYS)


def test_a_day_too_short_by_its_likely_minutes_is_seldom_kept():
    starts = {"ceremony": at("14:00"), "groups": at("14:30"), "meal": at("15:30")}
    assert chances(church_day(), starts)["meal"] == 0


@pytest.mark.parametrize("key", [b.key for b in full_day().blocks if b.fixed is None])
def test_days_simulated_again_from_one_block_on_are_the_days_simulated_anew(key):
    course = build_course(full_day())
    known = simulate(course, STARTS, 300)
    for by in (-15, 5):
        starts = {**STARTS, key: STARTS[key] + by}
        again = simulate(course, starts, 300, known=known, changed={key})
        assert again == simulate(course, starts, 300)
