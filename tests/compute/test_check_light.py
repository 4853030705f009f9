"""Checks of the light, each against the SPA algorithm (pvlib 0.16.1): see light/judges.py."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from planning.compute import check_light
from planning.compute.check_times import in_the_dark
from planning.compute.day import plan_wedding
from planning.compute.light import Skyline, refraction
from planning.compute.values import Spot

from .briefs import BARN, JUNE, group, make_brief, make_day, moment
from .light.judges import spa_sun

LONDON = ZoneInfo("Europe/London")
SEPTEMBER = date(2027, 9, 11)
AROUND = tuple((float(bearing), 0.0) for bearing in range(0, 360, 30))


def wall(height):
    return tuple((turn, height) for turn in (0.0, 90.0, 180.0, 270.0))


def planned(day=SEPTEMBER, ceremony="14:00", **place):
    brief = make_brief(
        make_day(moment("ceremony", ceremony), hours="10:00-23:00", on=day),
        places=(replace(BARN, **place),),
    )
    return plan_wedding(brief)


def said(check, plan):
    return [finding.message % finding.values for finding in check(plan)]


def block_of(plan, kind):
    return next(block for block in plan.days[0].blocks if block.kind == kind)


def sun_at(at, spot=BARN.spot):
    altitude, azimuth = spa_sun(spot, [at.timestamp()])
    return float(altitude[0]), float(azimuth[0])


def test_portraits_in_a_high_bare_sun_are_told_how_high_and_until_when():
    plan = planned(JUNE)
    (finding,) = check_light.harsh_portraits(plan)
    start, end = block_of(plan, "portraits").start, block_of(plan, "portraits").end
    assert finding.values["height"] == round(max(sun_at(start)[0], sun_at(end)[0]))
    hour, minute = map(int, finding.values["until"].split(":"))
    until = datetime(2027, 6, 12, hour, minute, tzinfo=LONDON)
    assert sun_at(until)[0] > 45 > sun_at(until + timedelta(minutes=1))[0]


def test_portraits_behind_a_high_wall_or_under_a_lower_sun_are_fine():
    assert said(check_light.harsh_portraits, planned(JUNE, skyline=wall(70.0))) == []
    assert said(check_light.harsh_portraits, planned(SEPTEMBER)) == []
    assert said(check_light.harsh_portraits, planned(JUNE, spot=None)) == []


@pytest.mark.parametrize("facing", range(0, 360, 15))
def test_a_ceremony_is_back_lit_when_the_suns_bearing_is_behind_the_two(facing):
    plan = planned(ceremony_facing=float(facing))
    ceremony = block_of(plan, "ceremony")
    behind = any(
        abs((sun_at(at)[1] - facing + 180) % 360 - 180) >= 135
        for at in (ceremony.start, ceremony.end)
    )
    assert bool(said(check_light.ceremony_back_lit, plan)) == behind


@pytest.mark.parametrize("facing", range(0, 360, 15))
def test_groups_squint_when_the_suns_bearing_is_before_them(facing):
    brief = planned(ceremony="15:00", group_facing=float(facing)).brief
    plan = plan_wedding(replace(brief, groups=(group("All", "Ana Obi", "Bo Nowak"),)))
    block = block_of(plan, "groups")
    before = any(
        abs((sun_at(at)[1] - facing + 180) % 360 - 180) <= 45 for at in (block.start, block.end)
    )
    assert bool(said(check_light.groups_face_the_sun, plan)) == before


def test_without_a_facing_nobody_is_told_of_faces():
    plan = planned()
    assert said(check_light.ceremony_back_lit, plan) == []
    assert said(check_light.groups_face_the_sun, plan) == []


def test_the_sun_stands_on_the_skyline_when_it_is_said_to_go_behind_it():
    points = ((200.0, 0.0), (250.0, 3.0), (270.0, 4.0), (300.0, 5.0))
    (finding,) = check_light.golden_behind_skyline(planned(skyline=points))
    hour, minute = map(int, finding.values["at"].split(":"))
    at = datetime(2027, 9, 11, hour, minute, tzinfo=LONDON)
    altitude, azimuth = sun_at(at)
    seen = altitude + refraction(altitude)
    assert seen == pytest.approx(Skyline(points).height(azimuth), abs=0.2)  # a minute of the sun
    assert finding.values["minutes"] >= 15
    assert "golden light is shorter" in finding.message


def test_a_skyline_that_hides_the_whole_day_or_nothing_is_told_so_or_not():
    assert "all of" in said(check_light.golden_behind_skyline, planned(skyline=wall(80.0)))[0]
    assert said(check_light.golden_behind_skyline, planned(skyline=AROUND)) == []
    assert said(check_light.golden_behind_skyline, planned()) == []


def test_golden_portraits_are_planned_before_the_sun_leaves():
    points = ((200.0, 0.0), (250.0, 3.0), (270.0, 3.0), (300.0, 3.0))
    golden = block_of(planned(skyline=points), "golden")
    altitude, azimuth = sun_at(golden.end)
    assert altitude + refraction(altitude) >= Skyline(points).height(azimuth) - 0.01
    hidden = planned(skyline=wall(20.0))
    assert "golden" not in {block.kind for block in hidden.days[0].blocks}


@pytest.mark.parametrize("latitude", [40, 50, 54, 55, 58, 60, 65, 70])
def test_no_night_is_where_the_sun_stays_above_nautical_twilight(latitude):
    plan = planned(date(2027, 6, 21), spot=Spot(float(latitude), -2.86))
    start = datetime(2027, 6, 21, 12, tzinfo=LONDON).timestamp()
    night = spa_sun(Spot(latitude, -2.86), np.arange(start, start + 86400, 60))[0]
    assert bool(said(check_light.no_night, plan)) == (night.min() > -12)


def test_where_the_sun_does_not_set_that_is_said():
    plan = planned(date(2027, 6, 21), spot=Spot(70.0, 20.0))
    assert said(check_light.no_night, plan)[0].endswith("the sun does not set.")


def test_portraits_after_sunset_are_told_once():
    plan = planned(date(2027, 12, 18), ceremony="15:30")
    (finding,) = check_light.sunset_before_portraits(plan)
    hour, minute = map(int, finding.values["sunset"].split(":"))
    at = datetime(2027, 12, 18, hour, minute, tzinfo=LONDON)
    # 50 arcminutes below level: the almanacs' sunset, here to the minute that is printed.
    half = timedelta(seconds=30)
    assert sun_at(at - half)[0] > -50 / 60 > sun_at(at + half)[0]
    assert not any("Portraits" in words for words in said(in_the_dark, plan))
    assert said(check_light.sunset_before_portraits, planned(date(2027, 12, 18), "12:00")) == []
