"""What of a plan is agreed: what the couple can check, and nothing more."""

from dataclasses import replace
from datetime import date

import pytest

from planning.compute.agreed import to_text
from planning.compute.agreed_plan import STEPS, sure
from planning.compute.day import plan_wedding
from planning.compute.values import Leg

from .briefs import BARN, HALL, at, make_day, moment
from .summaries import BRIEF, DAY, summary


def test_names_date_places_groups_and_wishes_are_there():
    said = summary()
    assert said.names == ("Žofie Nováková", "Ike Obi")
    assert [(d.date, d.starts, d.ends, d.holds) for d in said.days] == [
        ("2027-06-12", "10:00", "22:30", "holds")
    ]
    assert [(p.name, p.address, p.not_allowed) for p in said.places] == [
        ("Orchard Barn", "Sallow Lane", "No drones.")
    ]
    assert {g.title: (g.people, g.more) for g in said.groups}["All"] == (
        ("Ana Obi", "Bo Nowak"),
        30,
    )
    assert [w.text for w in said.wishes] == ["Grandfather's watch"]


def test_nothing_private_is_there():
    text = to_text(summary())
    for private in ("07700", "01632", "his brother", "grieves", "uncles", "Ríona Achebe"):
        assert private not in text


def test_the_photographers_own_work_is_not_there():
    kinds = {time.kind for time in summary().times}
    assert "ceremony" in kinds
    assert not kinds & {"travel", "setup", "rest", "pack", "night"}


def test_no_title_speaks_to_the_photographer():
    titles = {time.title for time in summary(days=(make_day(moment("ceremony", "14:00")),)).times}
    assert "Meal" in titles
    assert "Portraits of the two of you" in titles
    assert not any("eat something" in title or "the two of them" in title for title in titles)


def test_times_are_those_of_the_plan_on_the_weddings_clock():
    times = {time.kind: time for time in summary().times}
    assert (times["ceremony"].at, times["ceremony"].fixed) == ("2027-06-12T14:00+01:00", True)
    block = next(b for b in plan_wedding(BRIEF).days[0].blocks if b.kind == "portraits")
    assert times["portraits"].start == block.start
    assert times["portraits"].end == block.end
    assert times["portraits"].sure is None


@pytest.mark.parametrize(
    ("chance", "step"),
    [(1.0, 99), (0.99, 99), (0.9899, 95), (0.95, 95), (0.5, 50), (0.26, 25), (0.249, 0), (0, 0)],
)
def test_a_chance_is_told_as_the_step_it_reaches(chance, step):
    assert sure(chance) == step


def test_no_step_promises_everything():
    assert max(STEPS) < 100


def test_the_room_of_the_groups_is_what_the_day_has_for_them():
    said = summary()
    assert said.room.takes >= sum(group.minutes for group in said.groups)
    assert (said.room.title, said.room.at) == ("Meal", "2027-06-12T17:00+01:00")
    assert said.room.minutes > said.room.takes
    assert summary(groups=()).room.minutes is None


def test_sunset_and_golden_light_are_those_of_the_light_sheet():
    (light,) = summary().lights
    sheet = plan_wedding(BRIEF).days[0].light[0]
    assert light.sunset[:16] == f"{sheet.first('sunset').at:%Y-%m-%dT%H}" + light.sunset[13:16]
    assert light.golden < light.sunset
    # 52.66 N on 12 June: sunset about 21:35 BST at 2.86 W (equation of time from an almanac)
    assert "21:2" < light.sunset[11:15] < "21:5"


def test_a_sun_that_does_not_set_is_said_by_an_empty_time():
    north = replace(BARN, spot=replace(BARN.spot, latitude=69.65, longitude=18.96))
    (light,) = summary(places=(north,), zone="Europe/Oslo").lights
    assert (light.sunset, light.golden) == ("", "")


def test_a_day_that_does_not_fit_says_so_and_promises_nothing():
    tight = make_day(moment("ceremony", "14:00"), moment("meal", "14:10"), hours="10:00-22:30")
    said = summary(days=(tight,))
    assert said.days[0].holds == "short"
    assert all(time.sure is None for time in said.times)


def test_a_drive_that_nobody_timed_is_told():
    said = summary(places=(BARN, HALL), legs=(Leg(None, "barn", 0),), days=(
        replace(DAY, moments=(*DAY.moments[:1], moment("meal", "17:00", "hall"))),
    ))  # fmt: skip
    assert said.days[0].holds == "unknown"


def test_a_wedding_without_a_date_or_a_time_has_a_summary_too():
    assert summary(days=()).times == ()
    assert summary(days=(make_day(),)).days[0].holds in ("", "holds")
    far = make_day(moment("ceremony", "14:00"), on=date(1850, 6, 1))
    assert summary(days=(far,)).lights == ()


def test_booked_hours_are_said_as_far_as_they_are_known():
    (day,) = summary(days=(replace(DAY, ends=None, starts=at("09:30")),)).days
    assert (day.starts, day.ends) == ("09:30", "")
