"""Planned minutes of a drive, beside what traffic engineers publish."""

import json

import pytest

from planning.compute.travel import find_leg, planned_minutes
from planning.compute.values import Leg


@pytest.mark.parametrize(("on_the_map", "planned"), [(0, 0), (1, 2), (3, 4), (20, 27), (35, 47)])
def test_a_third_is_added_and_rounded_up(on_the_map, planned):
    assert planned_minutes(on_the_map) == planned


def test_planned_minutes_are_whole_and_a_third_more_at_least_but_no_minute_over():
    for on_the_map in range(1441):
        planned = planned_minutes(on_the_map)
        assert isinstance(planned, int)
        assert 0 <= planned * 3 - on_the_map * 4 < 3


def test_our_third_is_the_published_arithmetic_with_a_smaller_index(evidence):
    published = json.loads((evidence / "planning.json").read_text())["buffer_index"]
    mean, index = published["average_minutes"], published["buffer_index"]
    assert mean * (1 + index) == published["total_minutes"]
    # The same sum with our index of a third, rounded up to whole minutes.
    assert planned_minutes(mean) == -(-mean * (3 + 1) // 3) == 27
    assert mean < planned_minutes(mean) < published["total_minutes"]


def test_the_way_back_serves_where_the_way_there_is_not_known():
    there, back = Leg("a", "b", 10), Leg("b", "a", 14)
    assert find_leg([there], "b", "a") == Leg("b", "a", 10)
    assert find_leg([there, back], "b", "a") == back
    assert find_leg([there], None, "a") is None


def test_home_is_no_place_with_an_empty_key():
    assert find_leg([Leg(None, "a", 10)], None, "a").map_minutes == 10
    assert find_leg([Leg("", "a", 10)], None, "a") is None
