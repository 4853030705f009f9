from dataclasses import replace
from datetime import date
from zoneinfo import ZoneInfo

from planning.compute.network import Hours, solve
from tests.compute.network.days import at, block, church_day, day, full_day


def test_the_four_verdicts():
    assert solve(church_day("16:30")).verdict == "fits"
    varied = day(block("a", (20, 30, 60), fixed="14:00"), block("b", fixed="14:35"))
    assert solve(varied).verdict == "risky"
    tight = day(block("a", (20, 30, 60), fixed="14:00"), block("b", fixed="14:25"))
    assert solve(tight).verdict == "does not fit"
    hopeless = day(block("a", (20, 30, 60), fixed="14:00"), block("b", fixed="14:19"))
    assert solve(hopeless).verdict == "impossible"


def test_only_without_the_third_on_top_it_is_not_yet_impossible():
    """Ceremony 30, groups 40 and 25 on the map: 95 minutes."""
    assert solve(church_day("15:35")).verdict == "does not fit"
    assert solve(church_day("15:34")).verdict == "impossible"


def test_a_missing_drive_is_told_and_nothing_fits_with_it():
    problem = day(block("a", fixed="14:00", place="x"), block("b", fixed="18:00", place="y"))
    answer = solve(problem)
    assert answer.verdict == "does not fit"
    assert [fault.code for fault in answer.faults] == ["missing_leg"]
    assert answer.conflicts == answer.promises == answer.cuts == ()
    assert answer.planned[1].start == at("18:00")
    assert answer.faults[0].text == (
        'the drive from "x" to "y" is missing, between "a" and "b": '
        '"travel" needs its minutes on the map'
    )


def test_a_day_that_does_not_hold_promises_no_times():
    answer = solve(church_day())
    assert {(p.earliest, p.latest, p.start, p.end) for p in answer.planned} == {(None,) * 4}
    assert (answer.promises, answer.cuts, answer.leaving) == ((), (), None)
    assert answer.stretches[0].slack == -14


def test_earliest_and_latest_by_hand():
    """Groups end by 17:00 - 34 = 16:26, so start by 15:46; nothing holds the last block."""
    problem = church_day("17:00")
    tail = block("tail", 30, after=("meal",))
    problem = replace(problem, blocks=(*problem.blocks, tail))
    found = {p.key: (p.earliest, p.latest) for p in solve(problem).planned}
    assert found == {
        "ceremony": (at("14:00"), at("14:00")),
        "groups": (at("14:30"), at("15:46")),
        "meal": (at("17:00"), at("17:00")),
        "tail": (at("18:30"), None),
    }


def test_the_same_day_gives_the_same_answer():
    assert solve(full_day()) == solve(full_day())


def test_a_new_block_elsewhere_changes_no_other_chance():
    more = full_day()
    more = replace(more, blocks=(*more.blocks, block("last dance", (5, 10, 20))))
    assert solve(more).promises == solve(full_day()).promises


def test_past_midnight_the_hour_that_comes_twice_is_there_to_use():
    """From 25:00 to 28:00 four hours pass that night, and three on any other."""

    def night(on):
        hours = Hours(on, ZoneInfo("Europe/Madrid"))
        return solve(
            day(
                block("dance", 230, fixed=hours.minute(at("25:00"))),
                block("taxi", 5, fixed=hours.minute(at("28:00"))),
                hours=hours,
            )
        )

    assert night(date(2026, 10, 24)).stretches[0].slack == 10
    assert night(date(2026, 10, 17)).conflicts[0].short_by == 50
    assert night(date(2026, 3, 28)).conflicts[0].short_by == 110


def test_a_block_of_no_minutes_and_a_day_of_one_block():
    answer = solve(day(block("kiss", 0, fixed="15:00")))
    assert answer.verdict == "fits"
    assert (answer.planned[0].start, answer.planned[0].end) == (at("15:00"), at("15:00"))


def test_a_day_on_which_nothing_is_fixed():
    answer = solve(day(block("a", (10, 20, 30)), block("b", (10, 20, 30))))
    assert answer.verdict == "fits"
    assert answer.promises == answer.stretches == answer.cuts == ()


def test_a_day_without_the_photographer():
    answer = solve(day(block("a", 30, photographer=False, fixed="12:00")))
    assert answer.planned[0].start == at("12:00")


def test_a_hundred_blocks():
    blocks = [block(f"b{i}", (2, 5, 9)) for i in range(100)]
    assert solve(day(*blocks, block("z", fixed="20:00")), with_advice=False).verdict == "fits"
