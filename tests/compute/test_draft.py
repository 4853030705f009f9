"""The day's decisions: golden light, an early cake, and what nobody asked for."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from planning.compute.day import golden_evening
from planning.compute.groups import order_groups
from planning.compute.values import Leg, Place, Spot

from .briefs import BARN, EVERY_USE, JUNE, at, drafted, group, make_brief, make_day, moment

SUMMER = (
    moment("ceremony", "14:00"),
    moment("meal", "17:00"),
    moment("speeches", "19:00"),
    moment("dance", "21:30"),
)


def golden(start: str, end: str, on=JUNE):
    """Golden light between two times of UTC."""
    first, last = (datetime.combine(on, at(text), UTC) for text in (start, end))
    return first, last


def planned(*moments, light=None, hours="10:00-23:30", on=JUNE, **fields):
    brief = make_brief(make_day(*moments, hours=hours, on=on), **({"zone": "UTC"} | fields))
    return drafted(brief, brief.days[0], order_groups(brief), light)


def golden_of(day):
    block = next((b for b in day.blocks if b.kind == "golden"), None)
    return block and f"{block.start:%H:%M}-{block.end:%H:%M}"


def test_on_a_summer_evening_it_comes_with_the_light():
    assert golden_of(planned(*SUMMER, light=golden("20:05", "21:10"))) == "20:05-20:25"


def test_it_waits_for_the_speeches_to_end():
    assert golden_of(planned(*SUMMER, light=golden("19:10", "20:00"))) == "19:30-19:50"


def test_it_is_as_short_as_the_light_lets_it_be_and_not_a_minute_shorter():
    assert golden_of(planned(*SUMMER, light=golden("19:10", "19:42"))) == "19:30-19:42"
    assert golden_of(planned(*SUMMER, light=golden("19:10", "19:39"))) is None


def test_it_ends_where_the_dance_begins():
    assert golden_of(planned(*SUMMER, light=golden("21:18", "22:30"))) == "21:18-21:30"
    assert golden_of(planned(*SUMMER, light=golden("21:25", "22:30"))) == "21:38-21:58"


def test_on_a_winter_afternoon_it_interrupts_the_drinks():
    day = planned(
        moment("ceremony", "12:00"), moment("meal", "16:00"), light=golden("14:40", "15:50")
    )
    around = [(b.kind, f"{b.start:%H:%M}") for b in day.blocks if f"{b.start:%H:%M}" > "14:00"][:4]
    assert around[:3] == [("golden", "14:40"), ("drinks", "15:00"), ("meal_call", "15:50")]
    assert day.shortfalls == ()


def test_portraits_that_have_the_light_already_are_enough():
    day = planned(moment("ceremony", "14:00"), light=golden("14:40", "15:30"))
    assert golden_of(day) is None


def test_portraits_and_groups_come_first():
    day = planned(
        moment("ceremony", "14:00"),
        moment("meal", "17:00"),
        groups=(group("All", extra=80),),
        light=golden("14:30", "16:30"),
    )
    assert golden_of(day) is None or golden_of(day) >= "15:30"


def test_it_interrupts_the_party_which_then_goes_on():
    day = planned(*SUMMER[:3], moment("party", "20:00"), light=golden("20:30", "21:10"))
    kinds = [(b.kind, b.minutes) for b in day.blocks][-4:]
    assert kinds == [("party", 30), ("golden", 20), ("party", 140), ("pack", 20)]


def test_it_is_never_the_reason_that_something_is_late():
    ridge = Place("ridge", "The ridge", frozenset({"portraits"}))
    legs = (Leg(None, "barn", 0), Leg("barn", "ridge", 30))
    barn = Place("barn", "Barn", EVERY_USE - {"portraits"})
    moments = (*SUMMER[:3], moment("dance", "20:30"))
    here = {"places": (barn, ridge), "legs": legs}
    # 40 minutes there and 40 back do not fit between speeches (19:30) and dance (20:30).
    tight = planned(*moments, light=golden("19:20", "20:20"), **here)
    without = planned(*moments, **here)
    assert golden_of(tight) is None
    assert tight.shortfalls == without.shortfalls


def test_the_way_to_the_light_is_part_of_the_evening():
    ridge = Place("ridge", "The ridge", frozenset({"portraits"}))
    legs = (Leg(None, "barn", 0), Leg("barn", "ridge", 9))
    barn = Place("barn", "Barn", EVERY_USE - {"portraits"})
    day = planned(*SUMMER, light=golden("19:20", "21:20"), places=(barn, ridge), legs=legs)
    # Speeches until 19:30, the cake until 19:35, and a drive of nine minutes and a third.
    assert golden_of(day) == "19:47-20:07"
    assert day.shortfalls == ()


def test_it_stays_inside_the_booked_hours():
    day = planned(*SUMMER[:3], hours="10:00-20:00", light=golden("19:55", "21:00"))
    assert golden_of(day) is None


def test_a_free_cake_that_would_run_into_it_waits():
    day = planned(*SUMMER, moment("cake"), light=golden("19:32", "20:30"))
    evening = [b.kind for b in day.blocks if f"{b.start:%H:%M}" >= "19:00" and b.kind != "party"]
    assert evening[:3] == ["speeches", "golden", "cake"]


def test_only_the_main_day_has_it():
    first = make_day(*SUMMER, key="d1")
    second = make_day(moment("meal", "12:00"), on=date(2027, 6, 13), key="d2")
    brief = make_brief(first, second, zone="UTC")
    light = golden("20:05", "21:10", on=second.date)
    assert golden_of(drafted(brief, second, (), light)) is None


@pytest.mark.parametrize(
    ("spot", "zone", "on", "shape"),
    [
        (Spot(52.66, -2.86), "Europe/London", JUNE, "evening"),
        (Spot(64.15, -21.94), "Atlantic/Reykjavik", date(2027, 6, 21), "past midnight"),
        (Spot(69.65, 18.96), "Europe/Oslo", date(2027, 6, 21), "all night"),
        (Spot(69.65, 18.96), "Europe/Oslo", date(2027, 12, 21), None),
        (Spot(-45.03, 168.66), "Pacific/Auckland", date(2027, 12, 18), "evening"),
        (Spot(21.31, -157.86), "Pacific/Honolulu", JUNE, "evening"),
    ],
)
def test_golden_light_is_whole_minutes_of_the_right_evening(spot, zone, on, shape):
    place = Place("p", "There", EVERY_USE, spot=spot)
    brief = make_brief(make_day(on=on), places=(place,), zone=zone)
    light = golden_evening(brief, brief.days[0])
    if shape is None:
        assert light is None
        return
    start, end = (each.astimezone(ZoneInfo(zone)) for each in light)
    assert start.date() == on
    assert start < end
    assert (start.second, end.second, end.microsecond) == (0, 0, 0)
    assert (end.date() > on) == (shape != "evening")
    assert (end - start).total_seconds() / 3600 > (3 if shape == "all night" else 0.4)


def test_golden_light_needs_coordinates():
    brief = make_brief(make_day(), places=(Place("p", "There", EVERY_USE),))
    assert golden_evening(brief, brief.days[0]) is None


def test_groups_that_do_not_fit_before_an_early_cake_go_on_after_it():
    day = planned(
        moment("ceremony", "14:00"),
        moment("cake", "15:00"),
        moment("meal", "17:30"),
        groups=tuple(group(f"g{i}", extra=10) for i in range(6)),
    )
    assert day.shortfalls == ()
    kinds = [b.kind for b in day.blocks]
    assert kinds.index("confetti") < kinds.index("cake") < kinds.index("groups")
    assert kinds.index("groups") < kinds.index("portraits") < kinds.index("drinks")


def test_what_fits_before_it_stays_before_it():
    day = planned(
        moment("ceremony", "14:00"),
        moment("other", "15:10"),
        moment("meal", "17:30"),
        groups=(group("All", extra=20),),
    )
    kinds = [b.kind for b in day.blocks]
    assert kinds.index("groups") < kinds.index("other") < kinds.index("portraits")


def test_getting_ready_that_nobody_asked_for_goes_where_it_would_be_before_hours():
    late = planned(moment("ceremony", "14:00"), hours="13:00-20:00")
    assert "ready" not in {b.kind for b in late.blocks}
    asked = planned(
        moment("ceremony", "14:00"), moment("getting_ready", "12:00"), hours="13:00-20:00"
    )
    assert "ready" in {b.kind for b in asked.blocks}


def test_the_barn_is_where_everything_is():
    assert {b.place for b in planned(*SUMMER).blocks} == {BARN}
