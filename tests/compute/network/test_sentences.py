"""Sentences as people read them; the sums behind them are in test_conflicts.py."""

from planning.compute.network.conflicts import find_conflicts
from planning.compute.network.course import build_course
from planning.compute.network.sentences import in_one_sum, statements
from tests.compute.network.days import block, church_day, day


def told(problem):
    (conflict,) = find_conflicts(build_course(problem))
    return in_one_sum(problem, conflict), statements(problem, conflict)


def test_a_conflict_is_two_times_and_one_sum():
    text, said = told(church_day())
    assert text == (
        '"Ceremony" is fixed at 14:00; "Ceremony" 30 + "Groups" 40 + drive to "venue" 34 = '
        "104 minutes, so until 15:44 at the earliest; "
        '"Meal" is fixed at 15:30: 14 minutes short'
    )
    assert said == (
        '"Ceremony" is fixed at 14:00',
        '"Ceremony" takes 30 minutes',
        '"Groups" takes 40 minutes',
        'the drive from "church" to "venue" takes 34 minutes (25 on the map and a third more)',
        '"Meal" is fixed at 15:30',
    )


def test_a_window_is_one_statement_with_two_ends():
    text, said = told(day(block("a", 30, window=("19:40", "20:00"))))
    assert text == (
        '"a" starts no earlier than 19:40; "a" 30 minutes, so until 20:10 at the earliest; '
        '"a" must end by 20:00: 10 minutes short'
    )
    assert said == ('"a" must lie between 19:40 and 20:00', '"a" takes 30 minutes')


def test_without_a_sum_one_time_is_set_against_the_other():
    text, said = told(day(block("a", 30, fixed="10:00", window=("12:00", "13:00"))))
    assert text == '"a" starts no earlier than 12:00, but "a" is fixed at 10:00: 120 minutes short'
    assert said == ('"a" must lie between 12:00 and 13:00', '"a" is fixed at 10:00')


def test_that_a_day_begins_is_no_statement():
    text, said = told(day(block("a", 600), block("b", fixed="09:00")))
    assert text.startswith("the day begins at 00:00; ")
    assert said == ('"a" takes 600 minutes', '"b" is fixed at 09:00')
