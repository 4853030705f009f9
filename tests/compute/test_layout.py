"""Blocks on the clock, and the sums of what does not fit."""

from datetime import date
from itertools import pairwise

import pytest

from planning.compute.groups import order_groups
from planning.compute.travel import planned_minutes
from planning.compute.values import Leg

from .briefs import ALL_LEGS, APART, drafted, group, make_brief, make_day, moment

AUTUMN = date(2027, 10, 30)  # the clocks go back in the night after it


def planned(*moments, hours="", on=date(2027, 6, 12), **fields):
    brief = make_brief(make_day(*moments, hours=hours, on=on), **fields)
    return drafted(brief, brief.days[0], order_groups(brief))


def clock(day, *kinds):
    return {b.kind: f"{b.start:%H:%M}-{b.end:%H:%M}" for b in day.blocks if b.kind in kinds}


def minutes(start, end):
    return (end.timestamp() - start.timestamp()) / 60


def test_everything_before_the_ceremony_ends_just_in_time():
    day = planned(moment("ceremony", "14:00"))
    assert clock(day, "setup", "ready", "arrivals", "ceremony") == {
        "setup": "11:40-11:55",
        "ready": "11:55-13:25",
        "arrivals": "13:40-14:00",
        "ceremony": "14:00-14:25",
    }


def test_guests_arrive_and_are_called_just_before_not_when_she_happens_to_be_free():
    day = planned(
        moment("getting_ready", "09:00"), moment("ceremony", "14:00"), moment("meal", "17:30")
    )
    assert clock(day, "arrivals", "meal_call") == {
        "arrivals": "13:40-14:00",
        "meal_call": "17:20-17:30",
    }


def test_drinks_take_what_time_is_left():
    day = planned(moment("ceremony", "14:00"), moment("meal", "17:30"))
    assert clock(day, "details", "drinks") == {"details": "15:10-15:25", "drinks": "15:25-17:20"}


def test_drinks_that_begin_before_the_groups_are_done_are_no_clash():
    day = planned(
        moment("ceremony", "14:00"),
        moment("drinks", "14:30"),
        moment("meal", "17:00"),
        groups=(group("All", extra=60),),
    )
    assert day.shortfalls == ()
    drinks = next(b for b in day.blocks if b.kind == "drinks")
    assert (f"{drinks.start:%H:%M}", drinks.fixed) == ("15:39", False)


def test_a_party_fills_the_evening_up_to_the_dance_and_on_to_the_packing():
    day = planned(
        moment("ceremony", "14:00"),
        moment("party", "19:30"),
        moment("dance", "21:00"),
        hours="10:00-23:30",
    )
    evening = [(b.kind, f"{b.start:%H:%M}", b.minutes) for b in day.blocks[-4:]]
    assert evening == [
        ("party", "19:30", 90),
        ("dance", "21:00", 8),
        ("party", "21:08", 122),
        ("pack", "23:10", 20),
    ]
    assert day.shortfalls == ()


def test_the_couples_own_end_ends_the_day_where_no_hours_are_booked():
    day = planned(moment("ceremony", "14:00"), moment("end", "01:00"))
    assert clock(day, "pack") == {"pack": "00:40-01:00"}
    assert day.blocks[-1].end.day == 13


def test_getting_ready_gives_way_as_far_as_its_shortest_form():
    squeezed = planned(moment("getting_ready", "12:20"), moment("ceremony", "14:00"))
    assert clock(squeezed, "ready") == {"ready": "12:20-13:25"}
    assert squeezed.shortfalls == ()
    late = planned(moment("getting_ready", "13:00"), moment("ceremony", "14:00"))
    assert [gap.short_minutes for gap in late.shortfalls] == [20]


def test_no_fixed_time_but_booked_hours_lay_the_day_out_from_their_start():
    day = planned(hours="10:00-18:00")
    assert f"{day.blocks[0].start:%H:%M}" == "10:00"
    assert clock(day, "pack") == {"pack": "17:40-18:00"}
    assert not any(block.fixed for block in day.blocks)


def test_drinks_leave_the_rest_of_the_evening_to_the_party():
    day = planned(hours="10:00-23:00")
    assert [b.minutes for b in day.blocks if b.kind == "drinks"] == [45]
    assert next(b.minutes for b in day.blocks if b.kind == "party") > 120


def test_she_packs_at_the_end_of_her_hours_also_where_nobody_dances():
    brief = make_brief(
        make_day(moment("ceremony", "14:00"), moment("meal", "17:00")),
        make_day(moment("ceremony", "11:00"), on=date(2027, 6, 13), key="d2", hours="10:00-15:00"),
    )
    day = drafted(brief, brief.days[1], ())
    assert clock(day, "ceremony", "pack") == {"ceremony": "11:00-11:25", "pack": "14:40-15:00"}


def test_nothing_holds_a_day_without_a_time():
    assert planned(moment("ceremony")).blocks == ()
    assert planned(hours="-18:00").blocks == ()
    assert planned(hours="-18:00").leave_home is None


def short(*moments, **fields):
    (gap,) = planned(*moments, **fields).shortfalls
    return gap


def test_the_sum_of_a_shortfall_adds_up_to_the_minute():
    day = planned(
        moment("ceremony", "13:30"),
        moment("meal", "15:30"),
        places=APART,
        legs=ALL_LEGS,
        groups=tuple(group(f"g{i}", extra=15) for i in range(8)),
    )
    (gap,) = day.shortfalls
    drives = planned_minutes(9)  # church to hall
    blocks = [b.minutes for b in (gap.after, *gap.between)]
    # ceremony 25, congratulations 20, groups 8 x 4 + 5, portraits 25, details 15, call 10
    assert sorted(blocks) == sorted([25, 20, 37, 25, 15, 0, 10])
    assert sum(blocks) + drives - 120 == gap.short_minutes == 24


def test_each_of_two_gaps_has_a_sum_of_its_own():
    day = planned(moment("ceremony", "14:00"), moment("meal", "15:00"), moment("speeches", "16:00"))
    assert [(g.after.kind, g.before.kind, g.short_minutes) for g in day.shortfalls] == [
        ("ceremony", "meal", 35),
        ("meal", "speeches", 40),
    ]


def test_waiting_for_the_drinks_is_no_part_of_a_later_sum():
    gap = short(
        moment("ceremony", "12:00"),
        moment("drinks", "16:00"),
        moment("meal", "16:05"),
    )
    assert gap.after.kind == "drinks"
    assert gap.short_minutes == 5  # ten minutes to call the guests, five to do it in


def test_unknown_drives_take_no_time_and_are_named():
    day = planned(moment("ceremony", "14:00"), places=APART, legs=())
    assert len(day.unknown_drives) == 3
    assert day.leave_home is None
    drives = [block for block in day.blocks if block.kind == "travel"]
    assert [(drive.minutes, drive.untimed) for drive in drives] == [(0, True)] * 3


def test_leave_home_is_a_third_more_than_the_map_before_the_first_block():
    day = planned(moment("ceremony", "14:00"), legs=(Leg(None, "barn", 50),))
    assert f"{day.leave_home:%H:%M}" == "10:33"  # 11:40 less 67
    assert day.blocks[0].kind == "travel"
    assert day.blocks[0].start == day.leave_home


def test_next_door_she_leaves_when_the_work_begins():
    day = planned(moment("ceremony", "14:00"), legs=(Leg(None, "barn", 0),))
    assert day.leave_home == day.blocks[0].start


@pytest.mark.parametrize("style", ["one_place", "two_places", "several_days", "small", "winter"])
def test_blocks_follow_each_other_without_a_gap_in_time_or_an_overlap(style):
    day = planned(
        moment("getting_ready", "09:00"),
        moment("ceremony", "13:00"),
        moment("meal", "17:45"),
        moment("dance", "21:30"),
        style=style,
        places=APART,
        legs=(*ALL_LEGS, Leg("hall", None, 30)),
        hours="08:00-23:30",
    )
    assert day.shortfalls == ()
    for before, after in pairwise(day.blocks):
        assert before.end <= after.start
        if after.kind == "travel":
            assert after.place != before.place
    assert all(b.start < b.end for b in day.blocks)


def test_a_night_with_a_clock_change_has_its_extra_hour():
    day = planned(
        moment("ceremony", "16:00"), moment("dance", "23:30"), hours="12:00-02:00", on=AUTUMN
    )
    party = day.blocks[-2]
    assert (party.kind, f"{party.start:%H:%M}", f"{party.end:%H:%M}") == ("party", "23:38", "01:40")
    assert party.minutes == 182  # 2 h 2 min on the clock, and the hour that comes twice
    assert minutes(day.blocks[-1].start, day.blocks[-1].end) == day.blocks[-1].minutes == 20


def test_a_time_that_the_clocks_skip_still_lays_out_a_day_in_order():
    day = planned(moment("ceremony", "22:00"), moment("dance", "01:30"), on=date(2027, 3, 27))
    dance = next(b for b in day.blocks if b.kind == "dance")
    assert (f"{dance.start:%d %H:%M}", dance.minutes) == ("28 02:30", 8)


def test_every_time_is_local_and_a_whole_minute():
    day = planned(moment("ceremony", "14:00"), zone="Asia/Kathmandu", hours="09:00-22:00")
    for block in day.blocks:
        assert block.start.utcoffset().total_seconds() == 5.75 * 3600
        assert (block.start.second, block.end.second) == (0, 0)


def test_two_ceremonies_far_apart_leave_the_time_between_them_free():
    day = planned(
        moment("ceremony", "11:00", place="church"),
        moment("ceremony", "15:00", place="hall"),
        places=APART,
        legs=ALL_LEGS,
    )
    starts = [f"{b.kind} {b.start:%H:%M}" for b in day.blocks if b.kind in {"arrivals", "travel"}]
    assert starts[-3:] == ["arrivals 10:40", "travel 14:28", "arrivals 14:40"]
    assert day.shortfalls == ()


def test_two_things_at_the_same_minute_are_short_by_the_first():
    gap = short(moment("ceremony", "14:00"), moment("ceremony", "14:00"))
    assert gap.short_minutes == 45  # the ceremony, and guests who arrive for the next
