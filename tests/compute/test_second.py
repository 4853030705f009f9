"""Two photographers: two chains, each with its own drives, nobody in two places."""

from dataclasses import replace
from datetime import datetime
from itertools import product
from zoneinfo import ZoneInfo

import pytest

from planning.compute.groups import order_groups
from planning.compute.late import ending_after
from planning.compute.second import clashes
from planning.compute.settled import BOTH, EITHER, ME, SECOND, Settled
from planning.compute.timeline import lay_out
from planning.compute.values import Leg

from .briefs import ALL_LEGS, APART, LONDON, at, group, make_brief, make_day, moment

CEREMONY = moment("ceremony", "14:00")
USUAL = (CEREMONY, moment("meal", "17:00"))
TWO_ENDS = (
    moment("getting_ready", "11:00", "flat"),
    replace(moment("getting_ready", "11:10", "hall"), key="other-end"),
)
LEGS = (*ALL_LEGS, Leg("flat", "hall", 15))


def planned(*settled, moments=USUAL, **fields):
    day = replace(make_day(*moments, hours="10:00-23:00"), settled=settled)
    brief = make_brief(day, **({"groups": (group("All", extra=9),)} | fields))
    return lay_out(brief, day, order_groups(brief))


def times(day):
    return {b.key: (f"{b.start:%H:%M}", f"{b.end:%H:%M}") for b in day.blocks}


def overlaps(day):
    blocks = [b for b in day.blocks if b.minutes]
    return [(a, b) for a in blocks for b in blocks if a.start < b.start < a.end]


def test_alone_there_is_no_second_day():
    assert planned().second is None


def test_getting_ready_at_two_ends_needs_two_people():
    alone = planned(moments=(*TWO_ENDS, CEREMONY), places=APART, legs=LEGS)
    assert alone.verdict in {"does not fit", "impossible"}
    shared = planned(
        Settled("other-end", who=SECOND), moments=(*TWO_ENDS, CEREMONY), places=APART, legs=LEGS
    )
    assert shared.verdict in {"fits", "risky"}
    assert [b.key for b in shared.second.blocks] == ["other-end"]
    assert not overlaps(shared)
    assert not overlaps(shared.second)


def test_what_both_do_begins_for_both_at_the_same_minute_and_the_way_there_is_their_own():
    day = planned(
        Settled("other-end", who=SECOND),
        Settled("ceremony-1400", who=BOTH),
        moments=(*TWO_ENDS, CEREMONY),
        places=APART,
        legs=LEGS,
    )
    assert times(day)["ceremony-1400"][0] == times(day.second)["ceremony-1400"][0] == "14:00"
    drive = next(b for b in day.second.blocks if b.kind == "travel")
    assert (drive.place.key, drive.minutes) == ("church", 12)  # nine on the map and a third
    assert not overlaps(day.second)


def test_a_second_photographer_who_cannot_be_in_time_is_told():
    late = (Leg("hall", "church", 180), *LEGS[:2], LEGS[3])
    day = planned(
        Settled("other-end", who=SECOND),
        Settled("ceremony-1400", who=BOTH),
        moments=(*TWO_ENDS, CEREMONY),
        places=APART,
        legs=late,
    )
    assert day.second.verdict in {"does not fit", "impossible"}
    assert [gap.before.key for gap in day.second.shortfalls] == ["ceremony-1400"]


def test_what_either_can_do_is_hers_until_it_makes_her_day_hold():
    calm = planned(Settled("d1-details", who=EITHER))
    assert "d1-details" in times(calm)
    tight = planned(
        Settled("d1-details", who=EITHER),
        moments=(CEREMONY, moment("meal", "15:40")),
    )
    assert "d1-details" in times(tight.second)
    assert tight.verdict != "does not fit"


def test_nobody_knows_where_the_second_photographers_day_begins_so_nothing_is_missing_there():
    day = planned(Settled("d1-details", who=SECOND), places=APART, legs=LEGS)
    assert day.second.unknown_drives == ()
    assert day.second.verdict == "fits"


def test_the_second_photographers_groups_come_after_the_ceremony_though_it_is_not_theirs():
    day = planned(Settled("d1-groups", who=SECOND))
    (groups,) = day.second.blocks
    assert groups.start >= day.block("ceremony-1400").end


WITH_THE_COUPLE = ("d1-confetti", "d1-groups", "d1-portraits")


@pytest.mark.parametrize("who", [*product((ME, SECOND, BOTH), repeat=3)])
def test_the_couple_are_never_in_two_photographs_at_once(who):
    settled = (Settled(key, who=each) for key, each in zip(WITH_THE_COUPLE, who, strict=True))
    day = planned(*settled, places=APART, legs=LEGS)
    assert not clashes(day, make_brief(day.brief, places=APART, legs=LEGS))
    assert day.verdict in {"fits", "risky"}


def test_portraits_by_the_second_photographer_wait_for_the_groups():
    day = planned(Settled("d1-portraits", who=SECOND), places=APART, legs=LEGS)
    groups, portraits = day.block("d1-groups"), day.second.block("d1-portraits")
    assert portraits.start >= groups.end
    assert day.second.verdict == "fits"


def test_her_portraits_wait_for_the_groups_of_the_second_photographer():
    day = planned(Settled("d1-groups", who=SECOND), places=APART, legs=LEGS)
    groups, portraits = day.second.block("d1-groups"), day.block("d1-portraits")
    assert portraits.start >= groups.end > day.block("d1-confetti").end


def test_where_the_couple_have_no_time_for_the_second_photographer_the_day_does_not_fit():
    day = planned(
        Settled("d1-portraits", who=SECOND, minutes=(200, 200, 200)), places=APART, legs=LEGS
    )
    assert day.second.verdict in {"does not fit", "impossible"}


def test_golden_light_can_be_the_second_photographers_and_is_then_not_hers_too():
    lit = tuple(datetime(2027, 6, 12, hour, tzinfo=ZoneInfo(LONDON)) for hour in (20, 21))
    day = replace(
        make_day(*USUAL, hours="10:00-23:00"), settled=(Settled("d1-golden", who=SECOND),)
    )
    alone, found = (
        lay_out(brief, brief.days[0], (), lit)
        for brief in (make_brief(replace(day, settled=())), make_brief(day))
    )
    alone = alone.block("d1-golden")
    assert found.block("d1-golden") is None
    golden = found.second.block("d1-golden")
    assert (golden.start, golden.end) == (alone.start, alone.end)
    assert not clashes(found, make_brief(day))


def test_where_getting_ready_is_given_away_she_still_sets_out_for_where_her_day_begins():
    day = planned(
        Settled("getting-ready-1100", who=SECOND),
        moments=(TWO_ENDS[0], CEREMONY),
        places=APART,
        legs=(*LEGS, Leg(None, "church", 25)),
    )
    assert day.blocks[0].kind == "travel"
    assert day.blocks[0].place.key == "church"
    assert day.leave_home == day.blocks[0].start
    assert day.block("d1-setup").place.key == "church"


FAR = (*ALL_LEGS[:2], Leg("church", "hall", 45), Leg("flat", "hall", 15))  # 60 minutes planned


def test_the_couple_are_given_time_for_their_own_way():
    groups = Settled("d1-groups", who=SECOND)
    day = planned(groups, moments=USUAL[:1], places=APART, legs=FAR)
    confetti, groups = day.block("d1-confetti"), day.second.block("d1-groups")
    assert (confetti.place.key, groups.place.key) == ("church", "hall")
    assert (groups.start - confetti.end).total_seconds() >= 60 * 60


def test_congratulations_are_where_the_ceremony_is_whoever_takes_which():
    for key in ("ceremony-1400", "d1-confetti"):
        day = planned(
            Settled("other-end", who=SECOND),
            Settled(key, who=SECOND),
            moments=(*TWO_ENDS, CEREMONY),
            places=APART,
            legs=LEGS,
        )
        blocks = {b.key: b for each in (day, day.second) for b in each.blocks}
        assert blocks["d1-confetti"].place.key == "church"


def test_a_fixed_time_too_soon_after_one_elsewhere_is_a_clash():
    day = planned(Settled("d1-portraits", who=SECOND, at=at("14:50")), places=APART, legs=FAR)
    found = clashes(day, make_brief(day.brief, places=APART, legs=FAR))
    assert [(own.kind, other.kind) for own, other in found if other.kind == "portraits"]


MANY = tuple(group(f"Group {i}", *(f"guest {i} {j}" for j in range(5))) for i in range(16))


@pytest.mark.parametrize("who", [SECOND, BOTH])
def test_groups_are_as_likely_to_make_the_meal_late_whoever_photographs_them(who):
    """The same couple, the same minutes: the chance and the late plans are those of one alone."""
    moments = (CEREMONY, moment("meal", "16:45"))
    settled = Settled("d1-groups", who=who)
    alone = planned(moments=moments, groups=MANY)
    shared = planned(settled, moments=moments, groups=MANY)
    assert chances(shared) == chances(alone)
    late_alone, late = (ending_after(day, "ceremony-1400", 45) for day in (alone, shared))
    assert [(plan.chance, plan.cuts) for plan in late.plans] == [
        (plan.chance, tuple(cut for cut in plan.cuts if cut.key != "d1-groups"))
        for plan in late_alone.plans
    ]


def chances(day):
    return [(kept.block.key, kept.chance) for kept in day.promises]


def test_golden_light_keeps_out_of_what_the_second_photographer_does_with_the_couple():
    speeches = moment("speeches", "20:00")
    lit = tuple(datetime(2027, 6, 12, 20, minute, tzinfo=ZoneInfo(LONDON)) for minute in (0, 59))
    settled = (Settled(speeches.key, who=SECOND, minutes=(20, 20, 20)),)
    day = replace(make_day(*USUAL, speeches, hours="10:00-23:00"), settled=settled)
    brief = make_brief(day)
    found = lay_out(brief, day, (), lit)
    assert found.block("d1-golden").start >= found.second.block(speeches.key).end
    assert not clashes(found, brief)


DRINKS = (*USUAL, moment("speeches", "18:30"), moment("party", "21:00"))


def test_drinks_end_when_guests_are_called_to_the_meal_whoever_photographs_that():
    day = planned(
        Settled("d1-drinks", who=SECOND), Settled("d1-details", who=SECOND), moments=DRINKS
    )
    drinks, call = day.second.block("d1-drinks"), day.block("meal-1700-meal_call")
    assert drinks.end == call.start
    assert day.second.verdict == "fits"
    assert not overlaps(day.second)


def test_drinks_of_the_second_end_with_the_meal_though_their_next_block_is_the_party():
    given = (Settled("d1-drinks", who=SECOND), Settled("party-2100", who=SECOND))
    day = planned(*given, moments=DRINKS)
    drinks, party = day.second.block("d1-drinks"), day.second.block("party-2100")
    assert drinks.end == day.block("meal-1700-meal_call").start
    assert party.end == day.block("d1-pack").start


def test_her_drinks_end_when_the_meal_of_the_second_begins():
    day = planned(Settled("meal-1700", who=SECOND), moments=USUAL)
    assert day.block("d1-drinks").end <= day.second.block("meal-1700").start


def test_drinks_before_a_meal_that_nobody_has_timed_take_their_likely_minutes():
    given = (Settled("d1-drinks", who=SECOND), Settled("d1-meal", who=SECOND))
    day = planned(*given, moments=(CEREMONY,))
    assert day.second.block("d1-drinks").minutes <= 75


def test_without_booked_hours_drinks_of_the_second_end_with_the_meal_too():
    unbooked = replace(make_day(*USUAL, hours=""), settled=(Settled("d1-drinks", who=SECOND),))
    brief = make_brief(unbooked, groups=(group("All", extra=9),))
    day = lay_out(brief, unbooked, order_groups(brief))
    assert day.second.block("d1-drinks").end == day.block("meal-1700-meal_call").start


@pytest.mark.parametrize("given", ["meal-1700", "meal-1700-meal_call"])
def test_guests_are_called_just_before_the_meal_though_somebody_else_photographs_one_of_them(given):
    day = planned(Settled(given, who=SECOND))
    blocks = {block.key: block for block in (*day.blocks, *day.second.blocks)}
    assert f"{blocks['meal-1700-meal_call'].end:%H:%M}" == "17:00"
    assert {day.verdict, day.second.verdict} <= {"fits", "risky"}


def test_drinks_and_the_call_to_the_meal_can_both_be_the_seconds():
    given = (Settled("d1-drinks", who=SECOND), Settled("meal-1700-meal_call", who=SECOND))
    drinks, call = planned(*given).second.blocks
    assert drinks.minutes > 60
    assert (drinks.end, f"{call.end:%H:%M}") == (call.start, "17:00")


def test_the_seconds_party_begins_when_it_does_for_the_guests():
    day = planned(Settled("d1-details", who=SECOND), Settled("d1-party", who=SECOND))
    before = max(b.end for b in day.blocks if b.kind == "dance")
    assert day.second.block("d1-party").start >= before


def test_a_hand_made_order_never_has_a_block_wait_for_itself():
    """Her portraits after the second's speeches, by hand, and by themselves before them."""
    speeches = moment("speeches")
    order = ("d1-drinks", "d1-portraits", speeches.key)
    day = make_day(moment("meal", "17:00"), speeches, hours="10:00-23:00")
    day = replace(day, order=order, settled=(Settled(speeches.key, who=SECOND),))
    brief = make_brief(day)
    found = lay_out(brief, day, ())
    assert {found.verdict, found.second.verdict} == {"fits"}
    assert not clashes(found, brief)
