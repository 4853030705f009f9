"""The templates of a day: sound in themselves, and beside what is published."""

import json

import pytest

from planning.compute.blocks import (
    ONE_PLACE,
    OTHER,
    STYLES,
    TWO_PLACES,
    style_of,
    template_for,
)
from planning.compute.chain import FALL_BACK

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
