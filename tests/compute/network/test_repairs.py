from dataclasses import replace

import pytest

from planning.compute.network.changes import changed
from planning.compute.network.course import build_course
from planning.compute.network.repairs import conflicts_with_repairs
from planning.compute.network.sentences import repair_said
from planning.compute.network.solve import solve
from tests.compute.network.days import block, church_day, day
from tests.compute.network.test_conflicts import random_day


def told(problem, conflict):
    return [repair_said(problem, conflict, repair) for repair in conflict.repairs]


def repairs(problem):
    (conflict,) = conflicts_with_repairs(build_course(problem))
    return set(told(problem, conflict))


def kinds(problem):
    (conflict,) = conflicts_with_repairs(build_course(problem))
    return [(repair.kind, sorted(repair.change)) for repair in conflict.repairs]


def test_either_time_may_be_asked_to_move_by_the_minutes_short():
    assert repairs(church_day()) == {
        'ask to move "Meal" to 15:44 (14 minutes later)',
        'ask to move "Ceremony" to 13:46 (14 minutes earlier)',
    }


def packed(short, last="12:00"):
    return day(
        block("a", 60, fixed="10:00", title="A"),
        block("b", 60, short=short, title="B"),
        block("c", 20, droppable=True, title="C"),
        block("d", 60, fixed=last, title="D"),
    )


def test_a_short_form_is_offered_only_where_it_is_enough():
    assert 'shorten "B" to 40 minutes' in repairs(packed(40))
    assert not any("shorten" in text for text in repairs(packed(41)))
    assert 'leave out "C"' in repairs(packed(41))


def test_cuts_that_are_enough_only_together_are_offered_together():
    found = repairs(packed(30, "11:20"))
    assert 'shorten "B" to 20 minutes' not in found
    assert not any("leave out" in text for text in found)
    assert 'shorten "B" to 20 minutes and leave out "C"' in repairs(packed(20, "11:20"))


def test_where_no_cut_is_enough_all_of_them_are_offered_with_a_smaller_move():
    """By hand: A 60, B 60 and C 20 from 10:00 end at 12:20. B in 40 minutes saves 20 of the 50
    minutes short of 11:30, so D must move by the other 30."""
    problem = day(
        block("a", 60, fixed="10:00", title="A", movable=False),
        block("b", 60, short=40, title="B"),
        block("c", 20, title="C"),
        block("d", 60, fixed="11:30", title="D"),
    )
    assert repairs(problem) == {
        'shorten "B" to 40 minutes and ask to move "D" to 12:00 (30 minutes later)',
        'ask to move "D" to 12:20 (50 minutes later)',
    }


def test_every_repair_says_of_what_kind_it_is():
    assert kinds(packed(40)) == [
        ("shorten", ["b"]),
        ("leave_out", ["c"]),
        ("move", ["d"]),
        ("move", ["a"]),
    ]
    assert kinds(packed(20, "11:20"))[0] == ("together", ["b", "c"])
    assert kinds(day(block("g", 30, window=("19:40", "20:00")))) == [("widen", ["g"])] * 2


def test_leaving_out_a_block_is_not_offered_where_a_drive_would_be_missing():
    places = [
        block("a", 60, fixed="10:00", place="church"),
        block("b", 30, droppable=True, place="garden"),
        block("c", 60, fixed="11:00", place="venue"),
    ]
    ways = [("church", "garden", 3), ("garden", "venue", 3)]
    assert not any("leave out" in text for text in repairs(day(*places, legs=ways)))


def test_nobody_moves_the_light():
    assert not repairs(day(block("g", 30, kind="golden", window=("19:40", "20:00"))))
    assert len(repairs(day(block("g", 30, window=("19:40", "20:00"))))) == 2


def test_a_move_that_makes_another_conflict_worse_is_not_offered():
    problem = day(
        block("a", 45, fixed="10:00"), block("b", 50, fixed="10:30"), block("c", fixed="11:00")
    )
    first, second = conflicts_with_repairs(build_course(problem))
    assert told(problem, first) == ['ask to move "a" to 09:45 (15 minutes earlier)']
    assert told(problem, second) == ['ask to move "c" to 11:20 (20 minutes later)']


@pytest.mark.parametrize("seed", range(120))
def test_every_repair_of_a_single_conflict_makes_the_day_hold(seed):
    problem = random_day(seed)
    answer = solve(problem)
    if len(answer.conflicts) == 1:
        for repair in answer.conflicts[0].repairs:
            assert not solve(changed(problem, repair.change)).conflicts


def test_a_drive_that_is_missing_anyway_hides_no_repair():
    late = block("z", 5, fixed="20:00", place="hill")
    problem = church_day()
    problem = day(*problem.blocks, late, legs=[("church", "venue", 25)])
    assert len(repairs(problem)) == 2


def test_a_time_that_others_hold_is_moved_only_where_nothing_else_would_do():
    def meal_at(movable, **groups):
        problem = church_day()
        ceremony, middle, meal = problem.blocks
        blocks = (ceremony, replace(middle, **groups), replace(meal, movable=movable))
        return replace(problem, blocks=blocks)

    assert kinds(meal_at(False)) == [("move", ["ceremony"])]
    held = replace(meal_at(False).blocks[0], movable=False)
    registrars = replace(church_day(), blocks=(held, *meal_at(False).blocks[1:]))
    assert kinds(registrars) == [("ask", ["meal"]), ("ask", ["ceremony"])]
    assert (
        'only a move of "Meal" to 15:44 (14 minutes later) would do: ask whether it can'
        in repairs(registrars)
    )
    cut = replace(registrars, blocks=(held, *meal_at(False, short=26).blocks[1:]))
    assert kinds(cut) == [("shorten", ["groups"])]
    both = replace(
        registrars, blocks=(replace(held, short=20), *meal_at(False, short=36).blocks[1:])
    )
    assert kinds(both) == [("together", ["ceremony", "groups"])]


@pytest.mark.parametrize("seed", range(60))
def test_what_is_offered_for_times_others_hold_mends_too_and_stands_alone(seed):
    problem = random_day(seed)
    problem = replace(problem, blocks=tuple(replace(b, movable=False) for b in problem.blocks))
    for conflict in solve(problem, with_advice=False).conflicts:
        found = {repair.kind for repair in conflict.repairs}
        assert "move" not in found
        assert found <= {"ask"} or "ask" not in found
