"""The arithmetic of cards, batteries and copies beside published figures.

The figures and their sources are in tests/evidence/kit.json.
"""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.compute.bag.cards import fill_cards
from planning.compute.bag.need import (
    Need,
    batteries_for,
    charges,
    charging_hours,
    copy_minutes,
    counter_shows,
    frames_of,
    need_of,
    spare_batteries,
)
from planning.compute.bag.stock import stock_of
from planning.compute.planned import Block, Day

from ..briefs import make_day
from .things import BODY, CARD, CELL

NOON = datetime(2027, 6, 12, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def published(evidence):
    return json.loads((evidence / "kit.json").read_text())


def block(kind, minutes, key="b"):
    return Block(key, kind, kind, NOON, NOON + timedelta(minutes=minutes))


def test_a_cameras_own_counter_lies_between_the_two_shares_we_tell(published):
    for each in published["counter"]:
        low, high = counter_shows(each["card_gb"], each["file_mb"])
        # The two shares are rounded to hundredths.
        assert low * 0.99 <= each["shown"] <= high * 1.01, each["source"]
        assert each["shown"] < 0.62 * each["card_gb"] * 1000 / each["file_mb"]


def test_the_cold_takes_what_a_makers_manual_says(published):
    cold = published["cold"]
    assert charges(CELL, cold["warm"], cold=True) == pytest.approx(cold["at_0_C"])


def test_the_rating_is_an_upper_bound_of_batteries(published):
    """Continuous shooting took four times what the rating says: never fewer are needed."""
    each = published["continuous"]
    assert batteries_for(each["continuous"], each["rated"]) >= 4
    assert batteries_for(each["continuous"], each["continuous"]) == 1


@pytest.mark.parametrize(("rating", "needed"), [(380, 7), (500, 5), (950, 3)])
def test_batteries_are_frames_by_rating_rounded_up(rating, needed):
    assert batteries_for(2400, rating) == needed  # 6.3, 4.8, 2.5 by hand


@pytest.mark.parametrize(("rating", "needed"), [(380, 8), (500, 6), (950, 4)])
def test_old_batteries_hold_four_fifths(rating, needed):
    assert batteries_for(2400, rating, old=True) == needed  # 7.9, 6, 3.2 by hand


def test_no_rating_is_no_answer():
    with pytest.raises(ValueError, match="rating"):
        batteries_for(2400, 0)


@pytest.mark.parametrize(("count", "spare"), [(0, 0), (1, 1), (3, 1), (4, 2), (9, 3)])
def test_a_third_and_at_least_one_is_spare(count, spare):
    assert spare_batteries(count) == spare


@pytest.mark.parametrize(("speed", "minutes"), [(60, 20), (90, 14), (150, 8), (300, 4)])
def test_a_copy_takes_its_gigabytes_by_the_slowest_link(speed, minutes):
    assert copy_minutes(72, speed, copies=1) == minutes  # 20, 13.3, 8, 4 by hand
    assert copy_minutes(72, speed) in {2 * minutes, 2 * minutes - 1}


def test_the_speed_classes_are_what_a_card_surely_takes(published):
    classes = published["speed_class"]
    assert copy_minutes(72, classes["V30"], copies=1) == 40
    assert copy_minutes(72, classes["V90"], copies=1) == 14


def test_two_thousand_four_hundred_frames_of_30_mb_are_72_gb_and_94_with_the_reserve():
    need = Need(frames=2400, raw_mb=30, gb=72)
    assert need.cards_gb == 93.6
    assert replace(need, copies=2).all_cards_gb == 187.2


def test_batteries_are_charged_one_in_each_charger_at_a_time():
    assert charging_hours(7, 2) == 10.0
    assert charging_hours(7, 0) == 0.0


def test_frames_are_minutes_by_the_rate_of_their_block_and_by_ones_own_pace():
    assert frames_of(block("ceremony", 60)) == 150
    assert frames_of(block("ceremony", 60), pace=0.5) == 75
    assert frames_of(block("travel", 60)) == 0


def test_the_fullest_day_counts_since_cards_are_emptied_between_two():
    days = tuple(Day(make_day(), blocks=(block("ceremony", minutes),)) for minutes in (30, 120, 60))
    need = need_of(days, (BODY, replace(BODY, taken=False, raw_mb=90, slots=2)))
    assert (need.frames, need.raw_mb, need.gb, need.copies) == (300, 30, 9.0, 1)


def test_a_wedding_without_blocks_or_bodies_needs_nothing():
    assert need_of((), ()) == Need()
    assert need_of((Day(make_day()),), (CARD,)).gb == 0


sizes = st.lists(st.sampled_from([8.0, 32.0, 64.0, 128.0]), max_size=8)
blocks = st.lists(st.integers(1, 900), min_size=1, max_size=6)


@given(sizes, blocks, st.sampled_from([1, 2]))
def test_cards_take_the_whole_day_and_none_takes_more_than_half(sizes, frames, copies):
    cards = [replace(CARD, key=f"c{n}", gb=gb) for n, gb in enumerate(sizes)]
    counted = tuple((block("other", 10, f"b{n}"), count) for n, count in enumerate(frames))
    total = sum(frames)
    need = Need(counted, total, 30.0, round(total * 0.03, 1), copies)
    filled = fill_cards(stock_of([replace(BODY, slots=copies), CELL, *cards]), need)
    used = [card for each in filled for card in each.cards]
    assert len(set(used)) == len(used)
    half = -(-total // 2) * 30 * 1.3 / 1000
    for each in filled:
        assert len(each.cards) == copies
        assert each.gb <= min(min(card.gb for card in each.cards), half) + 0.06
    if filled:
        assert len(filled) >= 2 or total == 1
        assert sum(each.gb for each in filled) == pytest.approx(total * 0.039, abs=0.06 * 5)
        assert filled[0].blocks[0].key == "b0"


def test_one_card_that_would_hold_the_whole_day_is_not_enough():
    need = Need(((block("other", 10), 100),), 100, 30.0, 3.0)
    assert fill_cards(stock_of([BODY, CELL, replace(CARD, gb=512)]), need) == ()
    assert len(fill_cards(stock_of([BODY, CELL, replace(CARD, gb=512), CARD]), need)) == 2
