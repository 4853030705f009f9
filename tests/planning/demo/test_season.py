import dataclasses
import re
from datetime import date

import pytest
from tzfpy import get_tz

from planning.compute.day import plan_wedding
from planning.demo.season import PUBLIC_IDS, season

TODAY = date(2027, 1, 20)
SEASON = {demo.brief.wedding: demo for demo in season(TODAY)}
CLASHES = {
    "outside_its_day",
    "does_not_fit",
    "groups_longer_than_gap",
    "apart_in_one_frame",
    "many_groups",
    "two_spellings",
    "helper_for_groups",
    "wet_plan",
}


def codes(wedding):
    return {finding.code for finding in plan_wedding(SEASON[wedding].brief).findings}


def strings(value):
    if isinstance(value, str):
        yield value
    elif dataclasses.is_dataclass(value):
        for part in dataclasses.fields(value):
            yield from strings(getattr(value, part.name))
    elif isinstance(value, tuple | frozenset):
        for part in value:
            yield from strings(part)


@pytest.mark.parametrize("wedding", PUBLIC_IDS)
def test_every_wedding_plans_with_light_and_blocks_on_each_day(wedding):
    brief = SEASON[wedding].brief
    plan = plan_wedding(brief)
    for day in plan.days:
        assert day.blocks
        assert all(sheet.first("sunset").at for sheet in day.light)
    assert len(plan.turns) == len(brief.groups)


def test_the_september_wedding_shows_every_clash_planted_in_it():
    assert codes("demo-two-villages") >= CLASHES


@pytest.mark.parametrize("wedding", ["demo-orchard-barn", "demo-winter-hall", "demo-town-hall"])
def test_a_wedding_that_is_well_prepared_shows_none_of_them(wedding):
    assert not codes(wedding) & CLASHES


def test_no_other_wedding_has_an_estranged_pair_in_a_frame_or_one_guest_in_two_spellings():
    for wedding in set(PUBLIC_IDS) - {"demo-two-villages"}:
        assert not codes(wedding) & {"apart_in_one_frame", "two_spellings"}, wedding


def test_the_season_holds_the_kinds_of_wedding_the_design_asks_for():
    briefs = [demo.brief for demo in SEASON.values()]
    assert {b.style for b in briefs} == {
        "one_place", "two_places", "several_days", "winter", "small",
    }  # fmt: skip
    assert any(len(b.days) == 2 for b in briefs)
    assert any(b.zone != "Europe/London" for b in briefs)
    two_days = SEASON["demo-two-days"].brief.days
    assert [m.kind for day in two_days for m in day.moments].count("ceremony") == 2
    assert [day.date.strftime("%a") for day in two_days] == ["Fri", "Sat"]


def test_a_second_photographer_has_the_room_and_the_drinks_of_the_two_days():
    (saturday,) = (day for day in plan_wedding(SEASON["demo-two-days"].brief).days if day.second)
    assert [b.kind for b in saturday.second.blocks if b.kind != "travel"] == ["details", "drinks"]
    assert (saturday.brief.key, saturday.second.verdict) == ("saturday", "fits")


def test_the_winter_wedding_is_dark_before_its_meal_is_over():
    (day,) = plan_wedding(SEASON["demo-winter-hall"].brief).days
    meal = next(block for block in day.blocks if block.kind == "meal")
    assert day.light[0].first("sunset").at < meal.end


@pytest.mark.parametrize("wedding", PUBLIC_IDS)
def test_every_place_lies_in_the_zone_of_its_wedding(wedding):
    """tzfpy's map of time zones is the outside judge of the coordinates; longitude first."""
    brief = SEASON[wedding].brief
    for place in brief.places:
        assert get_tz(place.spot.longitude, place.spot.latitude) == brief.zone


@pytest.mark.parametrize("wedding", PUBLIC_IDS)
def test_every_phone_number_and_address_is_kept_for_fiction(wedding):
    """Ofcom, telephone numbers for drama: 07700 900000-900999 and 01632 960000-960999;
    RFC 2606 and RFC 6761: example.org and the top-level domain example."""
    words = list(strings(SEASON[wedding].brief))
    numbers = [w for w in words if re.search(r"\d{4}", w)]
    assert all(re.fullmatch(r"07700 900\d{3}|01632 960\d{3}|[a-z-]+-\d{4}", n) for n in numbers)
    mails = [w for w in words if "@" in w]
    assert all(m.endswith(("@example.org", ".example")) for m in mails)
    assert [*numbers, *mails]


@pytest.mark.parametrize("wedding", PUBLIC_IDS)
def test_a_side_has_a_helper_wherever_the_couple_have_said_who(wedding):
    brief = SEASON[wedding].brief
    if "people" in brief.saved_steps:
        assert {helper.side for helper in brief.helpers} == {"first", "second"}


@pytest.mark.parametrize("wedding", PUBLIC_IDS)
def test_no_group_is_empty_and_nobody_is_named_twice_in_it(wedding):
    for group in SEASON[wedding].brief.groups:
        assert group.people or group.extra
        assert len(set(group.people)) == len(group.people)
