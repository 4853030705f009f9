"""The order of the group photographs, their minutes and their clock."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from planning.compute.groups import (
    CALLING_MINUTES,
    DAY_MINUTES,
    block_minutes,
    group_minutes,
    order_groups,
    with_clock,
)
from planning.compute.planned import Block
from planning.compute.sequence import choose_order
from planning.compute.values import Care, Group

from .briefs import group, make_brief


def turns_of(*groups):
    return order_groups(make_brief(groups=groups, order_by="largest"))


def make_block(start: datetime, minutes: int) -> Block:
    zone = start.tzinfo
    end = datetime.fromtimestamp(start.timestamp() + minutes * 60, zone)
    return Block("g", "groups", "Groups", start, end)


@pytest.mark.parametrize(("size", "minutes"), [(0, 2.5), (1, 2.6), (10, 3.5), (300, 32.5)])
def test_minutes_grow_with_the_people_in_it(size, minutes):
    assert group_minutes(group("g", extra=size), make_brief()) == minutes


def test_the_studio_decides_how_long_a_group_takes():
    slow = make_brief(group_base_minutes=4.0, group_person_minutes=0.25)
    assert group_minutes(group("g", "Ana", "Bo", extra=2), slow) == 5.0


def test_largest_first_and_the_couples_own_order_among_equals():
    turns = turns_of(group("Two", "A", "B"), group("All", extra=40), group("Pair", "C", "D"))
    assert [t.group.title for t in turns] == ["All", "Two", "Pair"]
    assert [t.number for t in turns] == [1, 2, 3]


def test_everybody_is_free_once_after_their_last_photograph():
    turns = turns_of(group("Four", "Ana", "Bo", "Cy", "Di"), group("Two", "ANA", "bo"))
    assert [t.free for t in turns] == [("Cy", "Di"), ("ANA", "bo")]
    assert [t.walks_in for t in turns] == [("Ana", "Bo", "Cy", "Di"), ()]


def test_who_left_walks_in_again():
    turns = turns_of(group("a", "Ana", "Bo", "Cy"), group("b", "Di", "Eve"), group("c", "Ana"))
    assert turns[2].walks_in == ("Ana",)


def test_a_name_typed_twice_in_one_group_is_called_and_freed_once():
    (turn,) = turns_of(group("g", "Ana", "ana", "Bo"))
    assert turn.walks_in == turn.free == ("Ana", "Bo")


def test_no_groups_need_no_minutes():
    assert turns_of() == ()
    assert block_minutes(()) == 0


def test_the_block_is_the_sum_rounded_up_once_and_the_calling():
    # 10 x 2.6 = 26 exactly, though binary fractions add up to a little more.
    assert block_minutes(turns_of(*(group(f"g{i}", "Ana") for i in range(10)))) == 31
    assert block_minutes(turns_of(group("g", "Ana"))) == 3 + CALLING_MINUTES


def test_forty_groups_of_three_hundred_stay_within_a_day():
    many = turns_of(*(group(f"g{i}", *(f"Guest {n}" for n in range(300))) for i in range(40)))
    assert sum(t.minutes for t in many) == pytest.approx(1300)
    assert block_minutes(many) == 1305
    assert block_minutes(turns_of(group("g", extra=2_147_483_647))) == DAY_MINUTES


def test_every_group_starts_on_a_whole_minute_after_the_calling():
    turns = turns_of(group("a", extra=7), group("b", extra=3), group("c", extra=2))
    block = make_block(datetime(2027, 6, 12, 14, 15, tzinfo=UTC), block_minutes(turns))
    clocked = with_clock(turns, block)
    assert [f"{t.starts:%H:%M:%S}" for t in clocked] == ["14:20:00", "14:23:00", "14:26:00"]
    assert block.end >= clocked[-1].starts


def test_the_minutes_pass_even_while_the_clocks_change():
    turns = turns_of(*(group(f"g{i}", extra=75) for i in range(4)))  # 10 minutes each
    start = datetime(2027, 10, 31, 1, 40, tzinfo=ZoneInfo("Europe/London"))
    clocked = with_clock(turns, make_block(start, 45))
    passed = [(t.starts.timestamp() - start.timestamp()) / 60 for t in clocked]
    assert passed == [5, 15, 25, 35]
    assert [f"{t.starts:%H:%M}" for t in clocked] == ["01:45", "01:55", "01:05", "01:15"]


def test_people_who_walk_in_take_their_seconds_but_for_the_first_group():
    groups = (Group("a", "A", ("Ana", "Bo")), Group("b", "B", ("Bo", "Cy", "Di"), extra=4))
    brief = make_brief(
        groups=groups,
        order_by="listed",
        group_base_minutes=2.0,
        group_person_minutes=0.1,
        group_walk_minutes=0.1,
    )
    first, second = order_groups(brief)
    assert (first.assembling, first.minutes) == (0, 2.2)
    assert (second.assembling, second.minutes) == (0.6, 3.3)  # Cy, Di and four more walk in


EVERYBODY = Group("all", "All", extra=30, everyone=True)
FAMILIES = (
    Group("a", "A", ("Ana", "Bo"), extra=11),
    Group("b", "B", ("Cy",), extra=9),
)


def test_those_whom_nobody_names_are_free_after_their_last_photograph():
    """30 altogether: Ana, Bo, Cy, 11 and 9 more of the families, and 7 of whom nothing is said."""
    all_, a, b = order_groups(make_brief(groups=(EVERYBODY, *FAMILIES), order_by="listed"))
    assert [turn.extra for turn in (all_, a, b)] == [27, 11, 9]
    assert [turn.more_free for turn in (all_, a, b)] == [7, 11, 9]
    assert [turn.more_walk_in for turn in (all_, a, b)] == [27, 0, 9]


def test_who_is_to_be_kept_apart_stands_with_everybody_all_the_same():
    """Recomputed by hand from the definition, in the order as listed: everybody, A, B."""
    apart = Care("apart", "Ana", "Cy")
    brief = make_brief(
        groups=(EVERYBODY, *FAMILIES), order_by="listed", cares=(apart,), group_walk_minutes=0.0
    )
    minutes = [turn.minutes for turn in order_groups(brief)]
    people_free_after = (7, 2 + 11, 1 + 9)
    in_photographs = (30, 13, 10)
    present = sum(n * sum(minutes[: i + 1]) for i, n in enumerate(people_free_after))
    own = sum(n * m for n, m in zip(in_photographs, minutes, strict=True))
    assert choose_order(brief).costs["listed"].waiting == pytest.approx(present - own)
    assert not choose_order(brief).faults[1:]
