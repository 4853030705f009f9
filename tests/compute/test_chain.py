"""Which blocks a day has, in which order, and where."""

from dataclasses import replace
from datetime import date

import pytest

from planning.compute.chain import (
    FALL_BACK,
    build_chain,
    find_place,
    in_order,
    is_main,
    party_goes_on,
    route,
)
from planning.compute.groups import order_groups
from planning.compute.values import Leg, Place

from .briefs import (
    ALL_LEGS,
    APART,
    BARN,
    CHURCH,
    HALL,
    group,
    make_brief,
    make_day,
    moment,
)


def kinds_of(brief, day=None, **fields):
    brief = replace(brief, **fields)
    day = day or brief.days[0]
    return [link.template.kind for link in in_order(build_chain(brief, day, order_groups(brief)))]


def test_the_template_is_the_day_where_the_couple_say_only_the_ceremony():
    brief = make_brief(make_day(moment("ceremony", "14:00")), groups=(group("All", extra=9),))
    assert " ".join(kinds_of(brief)) == (
        "setup ready rest arrivals ceremony confetti groups portraits details drinks meal_call "
        "meal speeches cake dance party pack"
    )


def test_no_groups_have_no_block():
    assert "groups" not in kinds_of(make_brief(make_day(moment("ceremony", "14:00"))))


def test_a_day_that_has_moments_but_no_ceremony_is_given_none():
    kinds = kinds_of(make_brief(make_day(moment("meal", "18:00"), moment("party", "20:00"))))
    assert not {"arrivals", "ceremony", "confetti"} & set(kinds)
    assert kinds[kinds.index("meal") - 1] == "meal_call"


def test_guests_arrive_before_each_of_two_ceremonies_and_groups_follow_the_second():
    day = make_day(moment("ceremony", "15:00"), moment("ceremony", "11:00"))
    kinds = kinds_of(make_brief(day, groups=(group("All", extra=9),)))
    assert kinds[3:9] == ["arrivals", "ceremony", "arrivals", "ceremony", "confetti", "groups"]


def test_fixed_times_stand_in_their_own_order_whatever_the_template_says():
    day = make_day(
        moment("ceremony", "13:00"),
        moment("meal", "18:30"),
        moment("speeches", "17:30"),
        moment("cake", "16:30"),
    )
    kinds = kinds_of(make_brief(day))
    said = [k for k in kinds if k in {"ceremony", "meal", "speeches", "cake"}]
    assert said == ["ceremony", "cake", "speeches", "meal"]
    assert kinds[-4:] == ["meal", "dance", "party", "pack"]
    assert kinds[kinds.index("meal") - 1] == "meal_call"


def test_dressing_again_in_the_evening_does_not_draw_the_portraits_after_it():
    day = make_day(
        moment("getting_ready", "08:00"),
        moment("ceremony", "11:00"),
        moment("getting_ready", "17:00"),
        moment("meal", "19:00"),
    )
    kinds = kinds_of(make_brief(day))
    assert kinds.index("portraits") < len(kinds) - 1 - kinds[::-1].index("ready")


def test_something_else_with_a_time_is_a_block_and_the_packing_still_comes_last():
    day = make_day(moment("ceremony", "14:00"), moment("other", "22:30", title="Fireworks"))
    chain = in_order(build_chain(make_brief(day), day, ()))
    assert [link.title for link in chain][-2:] == ["Fireworks", "Second copy of the cards, pack"]


def test_a_moment_the_style_has_no_block_for_is_kept():
    day = make_day(moment("ceremony", "14:00"), moment("speeches", "18:00"))
    assert "speeches" in kinds_of(make_brief(day, style="small"))


def test_a_second_day_has_only_what_the_couple_say_of_it():
    first = make_day(moment("ceremony", "11:00"), moment("meal", "12:30"), key="fri")
    second = make_day(moment("ceremony", "14:00"), on=date(2027, 6, 13), key="sat")
    third = make_day(moment("party", "20:00"), on=date(2027, 6, 14), key="sun")
    brief = make_brief(first, second, third, groups=(group("All", extra=9),))
    assert [is_main(brief, day) for day in brief.days] == [True, False, False]
    assert kinds_of(brief, second) == ["setup", "rest", "arrivals", "ceremony", "pack", "night"]
    assert kinds_of(brief, third) == ["setup", "rest", "party", "pack", "night"]


def test_the_main_day_is_one_with_a_ceremony():
    busy = make_day(moment("meal", "12:00"), moment("party", "15:00"), moment("end", "18:00"))
    wed = make_day(moment("ceremony", "14:00"), on=date(2027, 6, 13), key="sat")
    assert not is_main(make_brief(busy, wed), busy)


def test_a_party_that_the_dance_interrupts_goes_on():
    day = make_day(moment("ceremony", "14:00"), moment("party", "19:00"), moment("dance", "21:00"))
    chain = party_goes_on(in_order(build_chain(make_brief(day), day, ())))
    assert [link.template.kind for link in chain[-4:]] == ["party", "dance", "party", "pack"]
    assert len({link.key for link in chain}) == len(chain)


@pytest.mark.parametrize(
    ("use", "place"),
    [("ceremony", CHURCH), ("groups", HALL), ("getting_ready", APART[0]), ("never", None)],
)
def test_a_use_has_the_place_listed_for_it(use, place):
    assert find_place(make_brief(make_day(), places=APART), use) == place


@pytest.mark.parametrize("uses", [frozenset(), frozenset({"ceremony"}), frozenset({"meal"})])
def test_an_only_place_serves_for_everything(uses):
    only = Place("p", "The Old Dairy", uses)
    brief = make_brief(make_day(), places=(only,))
    assert {find_place(brief, use) for use in FALL_BACK} == {only}


def test_of_two_places_with_nothing_ticked_neither_is_taken():
    only = Place("p", "The Old Dairy")
    two = make_brief(make_day(), places=(only, Place("q", "Elsewhere")))
    assert find_place(two, "ceremony") is None
    assert find_place(make_brief(make_day(), places=()), "ceremony") is None


def route_of(*moments, places=APART, legs=ALL_LEGS):
    day = make_day(*moments)
    brief = make_brief(day, places=places, legs=legs)
    links, unknown = route(build_chain(brief, day, ()), brief)
    return {link.key: link for link in links}, unknown


def test_each_drive_is_planned_with_its_third():
    links, unknown = route_of(moment("ceremony", "14:00"))
    drives = {key: link.drive for key, link in links.items() if link.drive}
    assert drives == {"d1-setup": 40, "ceremony-1400-arrivals": 16, "d1-portraits": 12}
    assert unknown == ()


def test_the_way_leads_from_the_last_known_place_past_blocks_without_one():
    church_then_hall = (CHURCH, replace(HALL, uses=frozenset({"party"})))
    day = [moment("ceremony", "14:00"), moment("other", "15:00"), moment("party", "20:00")]
    links, _ = route_of(*day, places=church_then_hall, legs=(Leg("church", "hall", 9),))
    assert sum(link.drive or 0 for link in links.values()) == 12


def test_a_first_block_without_a_place_has_no_way_from_home():
    links, unknown = route_of(moment("ceremony", "14:00"), places=APART[1:])
    assert links["d1-setup"].place is links["d1-ready"].place is None
    assert links["ceremony-1400-arrivals"].drive == 0
    assert (None, CHURCH) not in unknown


def test_drives_nobody_has_timed_are_named_once():
    links, unknown = route_of(moment("ceremony", "14:00"), legs=())
    assert unknown == ((None, APART[0]), (APART[0], CHURCH), (CHURCH, HALL))
    assert links["d1-setup"].drive is None


def test_setting_up_happens_where_the_day_starts():
    links, _ = route_of(moment("getting_ready", "09:00", place="hall"), moment("ceremony", "14:00"))
    assert links["d1-setup"].place == HALL


def test_a_place_that_is_not_on_the_list_is_no_place_of_the_moment():
    links, _ = route_of(moment("ceremony", "14:00", place="gone"), places=(BARN,))
    assert links["ceremony-1400"].place == BARN
