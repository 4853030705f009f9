"""Clashes across a season: each speaks when it should and is silent when it should be."""

from datetime import UTC, date, datetime, timedelta
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.compute.clashes import (
    SeasonDay,
    lapses,
    near_days,
    road_hours,
    said_hours,
    short_charging,
    too_near,
)
from planning.compute.ready_values import Policy
from planning.compute.values import Spot

JUNE = date(2027, 6, 12)
EDINBURGH, CARDIFF = Spot(55.9533, -3.1883), Spot(51.4816, -3.1791)
GB = frozenset({"GB"})


def on(day, names="Ana & Bo", begins=10, ends=22, **fields):
    """A day by hours of UTC; `ends` may be more than 24."""
    at = datetime(day.year, day.month, day.day, tzinfo=UTC)
    starts, until = at + timedelta(hours=begins), at + timedelta(hours=ends)
    return SeasonDay(names, names, day, starts, until, **{"countries": GB} | fields)


def after(days, names="Cy & Di", **fields):
    return on(JUNE + timedelta(days=days), names, **fields)


def said(clashes):
    return [clash.finding.message % clash.finding.values for clash in clashes]


def test_two_weddings_on_one_day_are_told():
    (clash,) = too_near([on(JUNE), after(0, begins=12)])
    assert said([clash]) == ["Ana & Bo and Cy & Di are on the same day, 2027-06-12."]
    assert clash.weddings == ("Ana & Bo", "Cy & Di")


def test_a_party_that_runs_into_the_next_wedding_is_told():
    assert len(list(too_near([on(JUNE, ends=34), after(1, begins=9)]))) == 1


def test_eleven_hours_between_two_days_are_enough_and_less_is_not():
    """Directive 2003/88/EC, article 3: eleven hours of rest in twenty-four."""
    assert said(too_near([on(JUNE, ends=23), after(1, begins=10)])) == []
    (words,) = said(too_near([on(JUNE, ends=23.5), after(1, begins=10)]))
    assert "there are 10.5 hours: less than 11 hours of rest" in words


def test_far_places_need_the_road_too():
    """Edinburgh to Cardiff is 497 km in a straight line (reckoned by the haversine formula with
    the mean radius of the earth, 6371.0088 km, IUGG)."""
    far = [on(JUNE, ends=22, last_spot=EDINBURGH), after(1, first_spot=CARDIFF, begins=14)]
    (words,) = said(too_near(far))
    assert "there are 16 hours" in words
    assert "about 11.5 on the way (497 km in a straight line)" in words
    near = [on(JUNE, ends=22, last_spot=CARDIFF), after(1, first_spot=CARDIFF, begins=14)]
    assert said(too_near(near)) == []


def test_the_other_side_of_the_earth_is_a_day_away_and_no_more():
    assert road_hours(Spot(52, 0), Spot(-52, 180)) == 24
    assert road_hours(Spot(52, 0), None) == 0


def test_two_days_of_one_wedding_are_its_own_affair():
    assert said(too_near([on(JUNE, ends=26), after(1, "Ana & Bo", begins=8)])) == []


def test_hours_that_nobody_booked_are_not_told_as_too_short():
    assert said(too_near([on(JUNE, ends=24), after(1, begins=0, known_hours=False)])) == []


def test_a_night_too_short_to_charge_is_told_for_one_wedding_too():
    days = [on(JUNE, ends=27), after(1, "Ana & Bo", begins=6)]
    (clash,) = short_charging(days)
    assert "there are 3 hours off the road; charging usually takes about 4" in said([clash])[0]
    assert clash.weddings == ("Ana & Bo",)
    assert said(short_charging([on(JUNE, ends=26), after(1, begins=6)])) == []


def test_what_the_bag_of_the_next_day_takes_to_charge_counts_where_it_is_known():
    assert said(short_charging([on(JUNE, ends=22), after(1, begins=10)])) == []
    days = [on(JUNE, ends=22, charge_hours=15), after(1, begins=10, charge_hours=12.2)]
    (words,) = said(short_charging(days))
    assert "your batteries take about 12.5 to charge" in words
    assert said(short_charging([on(JUNE, ends=22), after(1, begins=10, charge_hours=12)])) == []


def test_hours_are_said_in_halves_with_what_is_needed_rounded_up():
    assert [said_hours(10.9), said_hours(10.1, up=True), said_hours(3.0)] == ["10.5", "10.5", "3"]


def policy(ends, kind="liability", countries=frozenset()):
    return Policy(kind, "Larkmoor", date(2027, 1, 1), ends, countries)


def test_a_policy_that_lapses_in_mid_season_is_told_once_with_the_first_wedding_after_it():
    days = [on(JUNE), after(7), after(14, "Ed & Fay")]
    (clash,) = lapses(days, [policy(date(2027, 6, 13))], ["liability"])
    assert said([clash]) == ["Public liability: Larkmoor ends on 2027-06-13."]
    values = clash.finding.values
    assert (values["count"], values["first"], values["day"]) == (2, "Cy & Di", date(2027, 6, 19))
    assert clash.on == date(2027, 6, 19)


def test_a_policy_that_stops_at_the_border_is_told_for_each_country():
    abroad = after(7, countries=frozenset({"NO"}))
    policies = [policy(date(2027, 12, 31), countries=GB)]
    (words,) = said(lapses([on(JUNE), abroad], policies, ["liability"]))
    assert words == "Public liability: Larkmoor does not hold in this country: NO."


def test_what_was_settled_by_hand_is_not_told():
    settled = on(JUNE, insured=frozenset({"liability"}))
    assert said(lapses([settled], [policy(date(2027, 1, 2))], ["liability"])) == []


def test_without_any_policy_it_is_said_once_and_not_for_each_kind():
    kinds = ["liability", "equipment"]
    assert said(lapses([on(JUNE)], [], kinds)) == ["No insurance is noted yet."]
    one = [policy(date(2027, 12, 31))]
    assert said(lapses([on(JUNE)], one, kinds)) == ["Equipment: no policy is noted."]
    assert said(lapses([], [], kinds)) == []
    assert said(lapses([on(JUNE)], [], [])) == []


@given(st.lists(st.tuples(st.integers(0, 20), st.integers(1, 14), st.integers(4, 26)), max_size=7))
def test_near_days_miss_no_pair_that_is_too_near(rows):
    """Against every pair, one by one: a day with no other between them, and less than 11 hours."""
    days = [
        on(JUNE + timedelta(days=day), f"w{i}", begins, begins + long)
        for i, (day, begins, long) in enumerate(rows)
    ]
    order = sorted(days, key=lambda each: (each.starts, each.ends))
    pairs = {(a.wedding, b.wedding) for a, b in near_days(days)}
    for a, b in combinations(order, 2):
        between = [c for c in order if order.index(a) < order.index(c) < order.index(b)]
        if b.starts - a.ends < timedelta(hours=11) and not between:
            assert (a.wedding, b.wedding) in pairs


@pytest.mark.parametrize("count", [5000])
def test_thousands_of_days_are_looked_at(count):
    days = [after(i, f"w{i}") for i in range(count)]
    (clash,) = lapses(days, [policy(JUNE)], ["liability"])
    assert clash.finding.values["count"] == count - 1
    assert said(too_near(days)) == []
