"""The worked example of the notes: a drive of 35, 40 or 60 minutes, needed at 08:00."""

import pytest

from planning.compute.network.laws import Law, drive_law
from planning.compute.network.leave import leave_home
from planning.compute.network.solve import solve
from tests.compute.network.days import at, block, day


def test_the_earlier_of_both_rules_counts():
    leaving = leave_home(at("08:00"), 40)
    assert (leaving.rule, leaving.simulated, leaving.at) == (at("07:06"), at("07:05"), at("07:05"))


def test_the_rule_counts_where_the_drive_is_sure():
    leaving = leave_home(at("08:00"), 40, law=Law(40, 40, 41))
    assert leaving.simulated == at("07:19")
    assert leaving.at == leaving.rule == at("07:06")


@pytest.mark.parametrize(("share", "clock"), [(0.5, "07:16"), (0.9, "07:07"), (0.99, "07:02")])
def test_the_law_has_the_other_quantiles_of_the_notes(share, clock):
    assert at("08:00") - drive_law(40).quantile(share) == pytest.approx(at(clock), abs=1)


def test_home_told_gives_a_time_to_leave_that_is_kept_95_days_in_100():
    answer = solve(day(block("c", fixed="08:00", place="x"), legs=[("home", "x", 40)], home="home"))
    assert answer.leaving.at == at("07:05")
    assert answer.promises[0].chance == pytest.approx(0.95, abs=0.01)


def test_no_home_or_a_day_that_begins_there_needs_no_time():
    assert solve(day(block("c", fixed="08:00", place="x"))).leaving is None
    assert solve(day(block("c", fixed="08:00", place="x"), home="x")).leaving is None
