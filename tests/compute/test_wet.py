"""The same day in rain: where the two plans part, and when to decide."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from planning.compute.groups import order_groups
from planning.compute.settled import Settled, Wet
from planning.compute.timeline import lay_out
from planning.compute.values import Leg
from planning.compute.wet import parting

from .briefs import ALL_LEGS, APART, JUNE, at, group, make_brief, make_day, moment

MOMENTS = (moment("ceremony", "14:00"), moment("meal", "17:30"), moment("dance", "21:30"))
GOLDEN = (datetime.combine(JUNE, at("19:30"), UTC), datetime.combine(JUNE, at("20:30"), UTC))


def planned(*settled, light=None, style="one_place", **fields):
    day = replace(make_day(*MOMENTS, hours="10:00-23:30"), settled=settled)
    brief = make_brief(day, style=style, **({"groups": (group("All", extra=60),)} | fields))
    return lay_out(brief, day, order_groups(brief), light)


def test_nobody_goes_out_for_golden_light_in_the_rain():
    day = planned(light=GOLDEN)
    assert day.block("d1-golden") is not None
    assert day.wet.block("d1-golden") is None


def test_groups_take_a_quarter_longer_indoors():
    day = planned()
    fair, wet = day.block("d1-groups").minutes, day.wet.block("d1-groups").minutes
    assert wet == -(-5 * fair // 4)


def test_wet_roads_take_a_fifth_longer_before_the_third_is_added():
    day = planned(places=APART, legs=ALL_LEGS)
    drives = [each.block("drive-d1-groups").minutes for each in (day, day.wet)]
    assert drives == [12, 15]  # nine minutes on the map; 10.8 in rain
    assert day.wet.leave_home < day.leave_home


def test_a_block_can_have_other_minutes_and_another_place_or_go():
    where = Wet(minutes=(5, 10, 20), place="barn")
    day = planned(Settled("d1-confetti", wet=where), Settled("d1-details", wet=Wet(left_out=True)))
    assert day.wet.block("d1-confetti").minutes == 10
    assert day.block("d1-confetti").minutes == 20
    assert day.wet.block("d1-details") is None


def test_the_plans_part_at_the_first_block_that_differs_and_the_places_need_notice():
    day = planned()
    found = parting(day)
    assert found.block.kind == "groups"
    first = min(found.block.start, day.wet.block(found.block.key).start)
    assert (first - found.decide_by).total_seconds() == 60 * 60
    earlier = parting(planned(Settled("d1-confetti", wet=Wet(left_out=True))))
    assert earlier.block.kind == "confetti"


def test_where_nothing_is_wet_both_plans_are_the_same():
    dry = Wet(minutes=(15, 25, 40))
    fixed = (Settled("d1-portraits", wet=dry),)
    day = planned(*fixed, groups=(), legs=(Leg(None, "barn", 0),))
    assert parting(day) is None
    assert [(b.key, b.start, b.end, b.place) for b in day.blocks] == [
        (b.key, b.start, b.end, b.place) for b in day.wet.blocks
    ]


def test_a_block_that_is_there_only_in_the_rain_parts_the_plans():
    day = planned()
    umbrella = replace(
        day.block("d1-confetti"), key="own-porch", title="In the porch", kind="other"
    )
    wet = replace(day.wet, blocks=(*day.wet.blocks, umbrella))
    found = parting(replace(day, wet=wet))
    assert found.block == umbrella


def test_a_block_that_begins_ten_minutes_later_in_the_rain_parts_the_plans_and_nine_do_not():
    day = planned()
    alike = replace(day, wet=replace(day, wet=None))
    assert parting(alike) is None
    for minutes, parts in ((9, False), (10, True)):
        moved = tuple(later(b, minutes) if b.kind == "details" else b for b in day.blocks)
        found = parting(replace(alike, wet=replace(alike.wet, blocks=moved)))
        assert (found is not None) == parts


def later(block, minutes):
    by = timedelta(minutes=minutes)
    return replace(block, start=block.start + by, end=block.end + by)
