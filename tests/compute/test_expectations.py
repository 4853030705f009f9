"""What the list of groups costs, and what the day has for it."""

from dataclasses import replace

import pytest

from planning.compute.day import plan_wedding
from planning.compute.expectations import room_for_groups, savings, waits
from planning.compute.sequence import choose_order

from .briefs import ALL_LEGS, APART, group, make_brief, make_day, moment

CEREMONY = moment("ceremony", "14:00")
THREE = (
    group("Family", "Ana", "Bo", "Cy", "Di"),
    group("Parents", "Ana", "Bo"),
    group("Cousins", "Ana", "Bo", "Cy", "Ed"),
)


def room(*moments, hours="10:00-23:00", **fields):
    brief = make_brief(make_day(CEREMONY, *moments, hours=hours), **({"groups": THREE} | fields))
    return room_for_groups(brief, plan_wedding(brief).days)


def test_the_day_has_the_time_until_the_meal_less_what_else_must_happen():
    """By hand: ceremony 14:00 to 14:25, congratulations 20, portraits 25, the room 15, called to
    the meal 10 before it: 70 minutes; 5 to call the groups together; so 40 of the 115 to 16:20
    are left for the groups."""
    found = room(moment("meal", "16:20"))
    assert found.before.kind == "meal"
    assert found.minutes == 115 - 70 - 5


def test_a_shorter_list_leaves_the_day_as_long():
    meal = moment("meal", "16:20")
    assert room(meal, groups=THREE[:1]).minutes == room(meal).minutes


def test_a_list_longer_than_the_day_does_not_stretch_it():
    many = tuple(group(f"Table {i}", extra=20) for i in range(12))
    assert room(moment("meal", "16:20"), groups=many).minutes == 40


def test_drinks_give_way_and_are_said_to():
    found = room(moment("meal", "16:20"))
    assert found.gives_way.kind == "drinks"
    assert found.given == found.gives_way.minutes < found.minutes


def test_the_way_between_places_is_no_time_for_groups():
    near = room(moment("meal", "17:00"), places=APART, legs=ALL_LEGS)
    far = tuple(replace(leg, map_minutes=30) for leg in ALL_LEGS)
    assert near.minutes - room(moment("meal", "17:00"), places=APART, legs=far).minutes == 28


def test_without_a_fixed_time_afterwards_nobody_knows():
    assert room() is None


def test_a_group_inside_another_or_like_one_says_what_dropping_or_joining_saves():
    brief = make_brief(groups=THREE, order_by="listed")
    found = savings(brief, choose_order(brief))
    assert found["parents"].inside == "Family"
    assert found["parents"].minutes == pytest.approx(2.7)
    assert (found["family"].alike, found["cousins"].alike) == ("Cousins", "Family")
    # Two photographs of four take 2 x 2.9 minutes, one of five takes 3.0.
    assert found["cousins"].joined_minutes == pytest.approx(2.8)


def test_nobody_stands_inside_or_beside_the_photograph_of_everybody():
    everybody = replace(group("All", extra=60), everyone=True)
    brief = make_brief(groups=(*THREE[:1], everybody), order_by="listed")
    assert savings(brief, choose_order(brief))["family"].inside == ""


def test_everybody_waits_for_the_photograph_with_everybody_in_it():
    everybody = replace(group("All", extra=60), everyone=True)
    brief = make_brief(groups=(*THREE[:2], everybody), order_by="listed")
    found = {wait.name: wait for wait in waits(brief, plan_wedding(brief).turns)}
    end = found["Ana"].until
    assert {wait.until for wait in found.values()} == {end}
    assert [inside for _, _, inside in found["Di"].spans] == [True, False, True]
