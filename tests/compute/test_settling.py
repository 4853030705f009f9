"""What the photographer settles about blocks, and what becomes of the day."""

from dataclasses import replace
from datetime import date, time

import pytest

from planning.compute.groups import order_groups
from planning.compute.settled import SECOND, Settled, Wet
from planning.compute.timeline import lay_out
from planning.compute.values import Leg

from .briefs import ALL_LEGS, APART, at, group, make_brief, make_day, moment

MOMENTS = (moment("ceremony", "14:00"), moment("meal", "17:00"), moment("dance", "20:30"))


def planned(*settled, moments=MOMENTS, order=(), hours="10:00-23:00", **fields):
    day = replace(make_day(*moments, hours=hours), settled=settled, order=order)
    brief = make_brief(day, **({"groups": (group("All", extra=9),)} | fields))
    return lay_out(brief, day, order_groups(brief))


def block(day, key):
    return next(b for b in day.blocks if b.key == key)


def kinds(day):
    return [b.kind for b in day.blocks if b.kind != "travel"]


def test_minutes_that_are_settled_replace_the_templates():
    day = planned(Settled("d1-portraits", minutes=(40, 50, 60)))
    assert block(day, "d1-portraits").minutes == 50
    assert not block(day, "d1-portraits").assumed


def test_a_fixed_time_that_is_settled_holds_and_is_a_promise():
    day = planned(Settled("d1-portraits", at=at("15:30")))
    portraits = block(day, "d1-portraits")
    assert (f"{portraits.start:%H:%M}", portraits.fixed) == ("15:30", True)
    assert "d1-portraits" in {kept.block.key for kept in day.promises}


def test_a_time_of_the_couples_can_be_moved_or_let_go_without_touching_their_words():
    moved = planned(Settled("meal-1700", at=at("17:20"), said=at("17:00")))
    assert f"{block(moved, 'meal-1700').start:%H:%M}" == "17:20"
    loose = planned(Settled("dance-2030", loose=True))
    assert not block(loose, "dance-2030").fixed
    assert next(m for m in loose.brief.moments if m.kind == "dance").at == time(20, 30)


def test_a_wish_is_kept_where_the_day_allows_and_is_no_promise():
    day = planned(Settled("d1-portraits", wished=at("16:00")))
    assert f"{block(day, 'd1-portraits').start:%H:%M}" == "16:00"
    assert "d1-portraits" not in {kept.block.key for kept in day.promises}
    late = planned(Settled("d1-portraits", wished=at("16:58")))
    assert late.verdict in {"fits", "risky"}
    assert f"{block(late, 'd1-portraits').start:%H:%M}" < "16:58"


def test_a_block_can_be_held_between_two_times():
    day = planned(Settled("d1-portraits", opens=at("15:50"), closes=at("16:20")))
    portraits = block(day, "d1-portraits")
    assert f"{portraits.start:%H:%M}" >= "15:50"
    assert f"{portraits.end:%H:%M}" <= "16:20"
    assert [kept.block.key for kept in day.windows] == ["d1-portraits"]


def test_what_is_left_out_is_gone_with_what_led_to_it_and_can_be_put_back():
    day = planned(Settled("meal-1700", left_out=True), Settled("d1-details", left_out=True))
    assert not {"meal", "meal_call", "details"} & set(kinds(day))
    assert dict(day.gone) == {"meal-1700": "Meal", "d1-details": "The room, before guests"}


def test_golden_light_can_be_left_out_too():
    assert planned(Settled("d1-golden", left_out=True)).block("d1-golden") is None


def test_a_block_of_her_own_stands_behind_the_one_it_follows():
    own = Settled("own-1", kind="other", title="Ride home", follows="d1-portraits",
                  minutes=(10, 10, 10))  # fmt: skip
    day = planned(own)
    assert kinds(day)[kinds(day).index("portraits") + 1] == "other"
    assert (block(day, "own-1").title, block(day, "own-1").minutes) == ("Ride home", 10)


def test_a_block_that_follows_nothing_known_comes_before_the_packing():
    own = Settled("own-1", kind="rest", follows="gone", minutes=(5, 10, 15))
    assert kinds(planned(own))[-2:] == ["rest", "pack"]


def test_the_order_by_hand_is_kept_between_fixed_times():
    keys = ["d1-setup", "d1-ready", "d1-rest", "ceremony-1400", "d1-portraits", "d1-confetti"]
    day = planned(order=(*keys, "d1-groups", "d1-details", "meal-1700"))
    found = kinds(day)
    assert found.index("portraits") < found.index("confetti") < found.index("groups")


def test_no_order_by_hand_turns_the_clock_round():
    day = planned(order=("dance-2030", "meal-1700", "ceremony-1400"))
    fixed = [b.key for b in day.blocks if b.fixed]
    assert fixed == ["ceremony-1400", "meal-1700", "dance-2030"]


def test_guests_are_still_called_right_before_a_meal_that_was_moved():
    day = planned(order=("meal-1700", "d1-groups"))
    assert kinds(day)[kinds(day).index("meal") - 1] == "meal_call"


def test_another_place_needs_its_own_drive():
    day = planned(Settled("d1-portraits", place="flat"), places=APART, legs=())
    ends = {(a and a.key, b and b.key) for a, b in day.unknown_drives}
    assert ("hall", "flat") in ends
    assert ("flat", "hall") in ends


def test_what_is_settled_about_a_template_block_holds_for_the_moment_that_fills_it():
    day = planned(
        Settled("d1-speeches", minutes=(20, 40, 50)),
        moments=(*MOMENTS, moment("speeches", "19:00")),
    )
    assert block(day, "speeches-1900").minutes == 40


def test_a_time_in_the_small_hours_belongs_to_the_night_after():
    day = planned(Settled("d1-cake", at=at("00:30")), hours="10:00-01:30")
    assert block(day, "d1-cake").start.date() == date(2027, 6, 13)


def test_a_second_photographers_block_is_not_hers():
    day = planned(Settled("d1-details", who=SECOND))
    assert "details" not in kinds(day)
    assert kinds(day.second) == ["details"]


@pytest.mark.parametrize("minutes", [(0, 0, 0), (0, 1440, 1440)])
def test_settled_minutes_beyond_reason_still_make_a_day(minutes):
    day = planned(Settled("d1-details", minutes=minutes, wet=Wet(minutes)))
    assert day.verdict in {"fits", "risky", "does not fit", "impossible"}


def test_guests_arrive_where_the_ceremony_is_moved_to():
    day = replace(
        make_day(moment("ceremony", "14:00"), hours="10:00-22:00"),
        settled=(Settled("ceremony-1400", place="hall", wet=Wet(place="flat")),),
    )
    brief = make_brief(day, places=APART, legs=(*ALL_LEGS, Leg("flat", "hall", 15)))
    found = lay_out(brief, day, ())
    assert found.block("ceremony-1400-arrivals").place.key == "hall"
    assert found.wet.block("ceremony-1400-arrivals").place.key == "flat"
