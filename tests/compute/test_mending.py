"""What a repair is worth: told before it is chosen, and the same afterwards."""

from dataclasses import replace

import pytest

from planning.compute.groups import order_groups
from planning.compute.mending import mendings
from planning.compute.network import solve
from planning.compute.network.changes import changed
from planning.compute.timeline import lay_out

from .briefs import group, make_brief, make_day, moment


def day_with(*moments):
    brief = make_brief(make_day(*moments, hours="10:00-23:00"), groups=(group("All", extra=9),))
    return lay_out(brief, brief.days[0], order_groups(brief))


@pytest.fixture(scope="module")
def tight():
    return day_with(moment("ceremony", "14:00"), moment("meal", "15:20"))


def test_every_verified_repair_is_told_with_what_it_is_worth(tight):
    (gap,) = tight.shortfalls
    found = list(mendings(tight, gap))
    assert len(found) >= len(gap.repairs)
    assert {tuple(each.repair.change) for each in found} == {
        tuple(repair.change) for repair in gap.repairs
    }
    for each in found:
        answer = solve(changed(tight.problem, each.repair.change))
        assert not answer.conflicts
        assert each.weakest.chance == min(kept.chance for kept in answer.promises)


def test_a_time_moved_by_just_the_minutes_short_is_followed_by_one_with_room(tight):
    (gap,) = tight.shortfalls
    found = list(mendings(tight, gap))
    moves = just, roomy = [m for m in found if "fixed" in m.repair.change.get("meal-1520", {})]
    (was, at) = (each.repair.change["meal-1520"]["fixed"] for each in moves)
    assert at > was
    assert at % 5 == was % 5 == 0
    assert just.weakest.chance < 0.5
    assert roomy.weakest.chance >= tight.brief.wanted


def test_what_is_wanted_decides_how_much_room_is_offered(tight):
    (gap,) = tight.shortfalls
    fixed = []
    for wanted in (0.5, 0.9, 0.99):
        problem = replace(tight.problem, wanted=wanted)
        *_, last = mendings(replace(tight, problem=problem), gap)
        fixed.append(last.repair.change["meal-1520"]["fixed"])
    assert fixed == sorted(fixed)
    assert fixed[0] < fixed[-1]
