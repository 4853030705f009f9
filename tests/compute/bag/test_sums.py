"""What the bag amounts to beside what the day needs, against figures worked out by hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.compute.bag.cards import fill_cards
from planning.compute.bag.need import Need
from planning.compute.bag.stock import stock_of
from planning.compute.bag.sums import cards_of, sums_of

from .things import BODY, CARD, CELL, CHARGER, DRIVE, READER

DAY = Need(((None, 2400),), 2400, 30.0, 72.0)
OLD = replace(CELL, key="old", old=True)


def test_batteries_in_the_bag_are_good_for_their_age_and_the_cold():
    (power,) = sums_of([BODY, CELL, CELL, OLD, CHARGER], DAY).powers
    assert (power.shots, power.new, power.old) == (400, 2, 1)
    assert power.good == 1120  # 400 + 400 + 320
    assert (power.wanted, power.spare) == (6, 2)  # 2400 / 400, and one in three
    assert (power.chargers, power.hours) == (1, 7.5)
    (cold,) = sums_of([BODY, CELL, CELL, OLD], replace(DAY, cold=True)).powers
    assert (cold.good, cold.wanted) == (896, 8)  # 1120 x 0.8; 2400 / 320 = 7.5
    assert (cold.chargers, cold.hours) == (0, 0)


def test_ones_own_count_of_charges_takes_the_place_of_the_makers_figure():
    (power,) = sums_of([BODY, CELL], replace(DAY, shots=1600)).powers
    assert (power.shots, power.good, power.wanted) == (1600, 1600, 2)
    (unrated,) = sums_of([replace(BODY, shots=0), CELL], replace(DAY, shots=1600)).powers
    assert unrated.shots == 1600
    assert sums_of([replace(BODY, shots=0), CELL], DAY).powers == ()


def test_each_type_of_battery_is_reckoned_alone_however_it_is_typed():
    other = replace(BODY, key="b", power=" q ", shots=900)
    first, second = sums_of([BODY, other, replace(CELL, power="Q"), CELL, CELL], DAY).powers
    assert (first.name, first.new, second.name, second.new) == ("P", 2, " q ", 1)
    assert second.good == 900


def test_cards_of_one_size_are_two_at_least():
    sizes = dict(sums_of([BODY], DAY).sizes)
    # 93.6 GB with the reserve: 32 GB take 820 frames, 64 GB half of the day
    assert sizes == {32.0: 3, 64.0: 2, 128.0: 2, 256.0: 2}
    assert dict(sums_of([BODY], replace(DAY, copies=2)).sizes)[32.0] == 6
    assert cards_of(0.01, DAY) == 0  # not one frame
    assert sums_of([BODY], Need()).sizes == ()


@given(st.sampled_from([16.0, 32.0, 64.0, 128.0]), st.integers(2, 5000), st.sampled_from([1, 2]))
def test_so_many_cards_of_one_size_are_enough_and_one_set_less_is_not(gb, frames, copies):
    need = Need(((None, frames),), frames, 30.0, round(frames * 0.03, 1), copies)
    count = cards_of(gb, need)
    camera, cards = [replace(BODY, slots=copies), CELL], [replace(CARD, gb=gb)] * count
    assert fill_cards(stock_of(camera + cards), need)
    assert not fill_cards(stock_of(camera + cards[copies:]), need)


def test_the_cameras_counter_stands_beside_what_fits():
    """32 GB and 28.6 MB: 1,118 by division; a maker's table shows 654."""
    need = replace(DAY, raw_mb=28.6)
    counter = sums_of([BODY, replace(CARD, gb=32)], need).counter
    assert counter.fits == 1118
    assert counter.low <= 654 <= counter.high
    assert sums_of([BODY], need).counter is None


@pytest.mark.parametrize(
    ("reader", "first", "second", "minutes", "link"),
    [
        (60, 300, 300, 40, "Reader"),  # twice 20
        (300, 150, 90, 27, "Slow"),  # twice 13.3
        (0, 150, 0, 16, "Drive"),  # twice 8; what nobody knows is no link
    ],
)
def test_two_copies_take_twice_the_slowest_link(reader, first, second, minutes, link):
    things = [
        replace(READER, speed=reader),
        replace(READER, key="r2", speed=1, title="Old"),
        replace(DRIVE, speed=first),
        replace(DRIVE, key="d2", speed=second, title="Slow"),
    ]
    copying = sums_of(things if reader else [things[0], *things[2:]], DAY).copying
    assert (copying.minutes, copying.link) == (minutes, link)
    assert copying.checked in {2 * minutes, 2 * minutes - 1}


def test_copies_are_not_guessed_at():
    assert sums_of([replace(READER, speed=0)], DAY).copying is None
    assert sums_of([READER], Need()).copying is None
