"""The templates of a day: sound in themselves, and beside what is published."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning.compute.blocks import (
    KINDS,
    ONE_PLACE,
    OTHER,
    STYLES,
    TWO_PLACES,
    blocks_of,
    fillers_of,
    style_of,
    template_for,
)
from planning.compute.chain import FALL_BACK
from planning.compute.day import plan_wedding
from planning.compute.template import Template

from .briefs import group, make_brief, make_day, moment

EVERY = [pytest.param(style.blocks, id=key) for key, style in STYLES.items()]


def minutes_of(blocks, kind):
    return next(b.minutes for b in blocks if b.kind == kind)


@pytest.mark.parametrize("blocks", EVERY)
def test_minutes_are_whole_and_rise_from_shortest_to_longest(blocks):
    for block in (*blocks, OTHER):
        shortest, likely, longest = block.minutes
        assert 0 <= shortest <= likely <= longest, block.kind
        assert all(isinstance(m, int) for m in block.minutes)


@pytest.mark.parametrize("blocks", EVERY)
def test_every_block_says_where_it_is_and_what_it_is_called(blocks):
    for block in blocks:
        assert block.use in {*FALL_BACK, "next", "previous", "home"}, block.kind
        assert block.title


@pytest.mark.parametrize("blocks", EVERY)
def test_kinds_come_once_and_a_lead_stands_before_what_it_leads_to(blocks):
    kinds = [b.kind for b in blocks]
    assert len(kinds) == len(set(kinds))
    assert kinds[-1] in {"pack", "night"}
    for block in blocks:
        if block.leads:
            assert kinds.index(block.kind) < kinds.index(block.leads)


def test_every_kind_of_moment_has_a_block_or_ends_the_day():
    from intake.models import MomentKind

    known = {b.moment for b in (*ONE_PLACE, OTHER)} - {""}
    assert set(MomentKind.values) - known == {"end"}
    assert known <= set(MomentKind.values)


def test_every_use_of_a_place_is_one_the_couple_can_tick():
    from intake.models import Use

    assert set(FALL_BACK) == set(Use.values)
    assert {use for uses in FALL_BACK.values() for use in uses} <= set(Use.values)


def test_a_moment_outside_the_style_still_has_a_template():
    assert template_for("speeches").kind == "speeches"
    assert "speeches" not in {b.kind for b in STYLES["small"].blocks}
    assert template_for("never heard of") is OTHER


def test_an_unknown_style_is_a_day_at_one_place():
    assert style_of("gone") is STYLES["one_place"]


def test_ceremonies_last_what_councils_and_handbooks_say(evidence):
    published = json.loads((evidence / "planning.json").read_text())
    civil, church = published["ceremony_civil"], published["ceremony_church"]
    assert minutes_of(ONE_PLACE, "ceremony")[1] == civil["minutes"]
    assert minutes_of(ONE_PLACE, "arrivals")[1] == max(civil["arrive_before"])
    assert minutes_of(TWO_PLACES, "ceremony")[1] == church["minutes"]


def test_speeches_are_as_long_as_the_survey_found(evidence):
    survey = json.loads((evidence / "planning.json").read_text())["speeches"]
    shortest, likely, longest = minutes_of(ONE_PLACE, "speeches")
    # Share of a triangular law below 45 minutes, right of its mode.
    below = 1 - (longest - 45) ** 2 / ((longest - shortest) * (longest - likely))
    assert below == pytest.approx(survey["share_under_45"], abs=survey["tolerance"])
    low, high = survey["average"]
    assert low <= (shortest + likely + longest) / 3 <= high


def own(*blocks):
    return make_brief(
        make_day(
            moment("ceremony", "14:00"), moment("other", "15:10"), moment("meal", "17:30"),
            hours="09:00-23:00",
        ),
        own_blocks=blocks,
    )  # fmt: skip


VOWS = Template("ceremony", "Vows", (5, 20, 30), "ceremony", "ceremony", key="k1")
MEAL = Template("meal", "Supper", (30, 60, 90), "meal", "meal", key="k2")


def test_a_kind_of_ones_own_stands_in_for_the_built_in_one():
    assert blocks_of(own()) == STYLES["one_place"].blocks
    pack = Template("pack", "Go home", (5, 10, 15), "previous")
    assert blocks_of(own(VOWS, MEAL, pack)) == (VOWS, MEAL, pack)


def test_what_the_couple_say_and_a_kind_has_no_block_for_is_in_the_day_with_no_packing_up_too():
    (day,) = plan_wedding(own(VOWS, MEAL)).days
    assert [b.title for b in day.blocks] == ["Ceremony", "Other", "Meal"]


def test_two_blocks_of_a_kind_have_each_a_key_that_their_place_in_the_list_does_not_change():
    walk = Template("portraits", "A walk", (10, 20, 30), "portraits", key="walk")
    again = Template("portraits", "At dusk", (10, 15, 20), "portraits", key="dusk")
    for blocks in ((VOWS, walk, again, MEAL), (VOWS, again, walk, MEAL)):
        (day,) = plan_wedding(own(*blocks)).days
        found = {b.title: b.key for b in day.blocks if b.kind == "portraits"}
        assert found == {"A walk": "d1-walk", "At dusk": "d1-dusk"}


def test_what_gives_way_is_what_the_kind_of_day_says():
    drinks = Template("drinks", "Drinks", (20, 30, 40), "meal", "drinks")
    assert fillers_of(own()) == {"rest", "drinks", "party"}
    assert fillers_of(own(VOWS, drinks)) == {"rest", "party"}
    assert "details" in fillers_of(
        own(VOWS, Template("details", "Room", (5, 9, 9), "meal", fills=True))
    )


three_minutes = st.lists(st.integers(1, 200), min_size=3, max_size=3).map(sorted).map(tuple)
SINGLE, NO_TIME = {"groups", "golden", "pack"}, {"groups", "golden"}


@st.composite
def own_kinds(draw):
    """Blocks as the studio's own page lets them be."""
    blocks, moments, led = [], set(), set()
    for n, kind in enumerate(draw(st.lists(st.sampled_from(sorted(KINDS)), min_size=1))):
        if kind in SINGLE and any(b.kind == kind for b in blocks):
            continue
        ahead = {b.kind for b in blocks if not b.leads} - led - {"golden", "other"}
        leads = draw(st.sampled_from(["", *sorted(ahead)])) if kind not in SINGLE else ""
        timed = {b.moment for b in ONE_PLACE} - moments
        moment = (
            draw(st.sampled_from(sorted(timed | {""}))) if kind not in NO_TIME and not leads else ""
        )
        moments |= {moment} - {""}
        led |= {leads}
        minutes = (0, 0, 0) if kind == "groups" else draw(three_minutes)
        use = draw(st.sampled_from([*FALL_BACK, "next", "previous", "home"]))
        fills = draw(st.booleans())
        block = Template(kind, f"B{n}", minutes, use, moment, fills, leads, key=f"k{n}")
        blocks.insert(0 if leads else len(blocks), block)
    return tuple(blocks)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(own_kinds())
def test_any_kind_of_ones_own_makes_a_plan_that_has_every_time_of_the_couple(blocks):
    times = {
        "getting_ready": "09:30", "ceremony": "14:00", "other": "15:10", "meal": "17:30",
        "cake": "20:00", "dance": "20:30",
    }  # fmt: skip
    moments = [moment(kind, clock) for kind, clock in times.items()]
    brief = make_brief(
        make_day(*moments, hours="09:00-23:30"),
        own_blocks=blocks,
        groups=(group("All", "Ana", extra=9),),
    )
    (day,) = plan_wedding(brief).days
    keys = [block.key for block in day.blocks]
    assert len(keys) == len(set(keys))
    filled = {m.key for m in moments if m.kind in {b.moment for b in blocks if b.fills}}
    assert {m.key for m in moments} - filled <= set(keys)
