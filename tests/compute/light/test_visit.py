"""The venue visit against brute force over the whole visit day, by our engine and by SPA."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from planning.compute.light import match_visit, position, same_altitude, same_azimuth, visit_days
from planning.compute.light.hours import window
from planning.compute.light.sky import Sky
from planning.compute.values import Spot

from .judges import spa_sun
from .test_hours import PLACES

PLACES = {**PLACES, "Europe/London": Spot(51.5, -0.12), "Asia/Singapore": Spot(1.35, 103.8)}

# wedding, zone, visit; clock changes lie between in all but the last two
CASES = [
    (datetime(2026, 4, 4, 17, 30), "Europe/London", date(2026, 3, 21)),
    (datetime(2026, 3, 14, 17), "America/Los_Angeles", date(2026, 2, 28)),
    (datetime(2026, 11, 7, 15, 30), "America/Los_Angeles", date(2026, 10, 24)),
    (datetime(2026, 10, 3, 16, 30), "Pacific/Auckland", date(2026, 9, 19)),
    (datetime(2026, 10, 10, 16), "Australia/Lord_Howe", date(2026, 9, 26)),
    (datetime(2026, 4, 11, 16), "Pacific/Chatham", date(2026, 4, 4)),
    (datetime(2026, 6, 27, 19), "Europe/London", date(2026, 6, 13)),
    (datetime(2026, 8, 15, 18), "Asia/Kathmandu", date(2026, 7, 25)),
]


def aware(case):
    wedding, zone, visit = case
    return PLACES[zone], ZoneInfo(zone), wedding.replace(tzinfo=ZoneInfo(zone)), visit


def vectors(altitude, azimuth):
    a, z = np.radians(altitude), np.radians(azimuth)
    return np.stack([np.cos(a) * np.cos(z), np.cos(a) * np.sin(z), np.sin(a)])


def by_brute_force(spot, zone, wedding, visit):
    """The moment of least separation on the visit day, and that separation, by SPA alone."""
    then = vectors(*spa_sun(spot, wedding.timestamp()))
    start, end = window(zone, visit)
    step = 60.0
    while step >= 0.5:
        grid = np.arange(start, end + step, step)
        gap = np.linalg.norm(vectors(*spa_sun(spot, grid)) - then, axis=0)
        best = grid[gap.argmin()]
        start, end, step = best - step, best + step, step / 10
    return best, float(np.degrees(2 * np.arcsin(gap.min() / 2)))


@pytest.mark.parametrize("case", CASES)
def test_the_match_is_the_least_separation_of_the_day(case):
    spot, zone, wedding, visit = aware(case)
    match = match_visit(spot, zone, wedding, visit)
    best, gap = by_brute_force(spot, zone, wedding, visit)
    assert match.at.date() == visit
    assert abs(match.at.timestamp() - best) <= 5
    assert match.separation == pytest.approx(gap, abs=0.001)


@pytest.mark.parametrize("case", CASES)
def test_what_is_left_is_the_difference_in_declination(case):
    spot, zone, wedding, visit = aware(case)
    match = match_visit(spot, zone, wedding, visit)
    sky = Sky(spot)
    left = sky.declination(match.at.timestamp()) - sky.declination(wedding.timestamp())
    assert match.separation == pytest.approx(abs(left), abs=0.001)


def test_the_clock_moves_by_the_clock_change_and_little_else():
    for case in CASES:
        spot, zone, wedding, visit = aware(case)
        match = match_visit(spot, zone, wedding, visit)
        change = match.at.utcoffset() - wedding.utcoffset()
        clock = match.at.replace(tzinfo=None) - change
        moved = datetime.combine(wedding.date(), clock.time()) - wedding.replace(tzinfo=None)
        # The equation of time moves by at most 30 s a day (from memory), here over 21 days.
        assert abs(moved) < timedelta(minutes=10)


def test_the_changes_add_up_to_the_two_positions():
    spot, zone, wedding, visit = aware(CASES[0])
    match = match_visit(spot, zone, wedding, visit)
    then, now = position(spot, wedding), position(spot, match.at)
    assert match.altitude_change == pytest.approx(now.altitude - then.altitude)
    assert match.azimuth_change == pytest.approx(now.azimuth - then.azimuth)


def days_before(wedding):
    return [wedding.date() - timedelta(n) for n in range(7, 22)]


def test_the_best_day_is_the_nearest_away_from_the_solstices():
    spot, zone, wedding, _ = aware(CASES[0])
    best, *others = visit_days(spot, zone, wedding, days_before(wedding))
    assert best.at.date() == wedding.date() - timedelta(7)
    assert best.separation < min(m.separation for m in others)


def test_around_a_solstice_an_earlier_day_may_match_almost_exactly():
    zone = ZoneInfo("Europe/London")
    wedding = datetime(2026, 6, 28, 19, tzinfo=zone)
    best = visit_days(PLACES["Europe/London"], zone, wedding, days_before(wedding))[0]
    # Declination is level at the solstice of 21 June: 14 June mirrors 28 June.
    assert best.at.date() in (date(2026, 6, 13), date(2026, 6, 14), date(2026, 6, 15))
    assert best.separation < 0.1


@pytest.mark.parametrize("case", CASES)
def test_same_azimuth_throws_shadows_the_same_way(case):
    spot, zone, wedding, visit = aware(case)
    match = same_azimuth(spot, zone, wedding, visit)
    assert match.at.date() == visit
    assert match.azimuth_change == pytest.approx(0, abs=0.001)
    assert match.separation == pytest.approx(abs(match.altitude_change), abs=0.001)


@pytest.mark.parametrize("case", CASES)
def test_same_altitude_throws_shadows_of_the_same_length(case):
    spot, zone, wedding, visit = aware(case)
    match = same_altitude(spot, zone, wedding, visit)
    then, now = position(spot, wedding), position(spot, match.at)
    assert now.shadow_ratio == pytest.approx(then.shadow_ratio, rel=1e-3)
    assert match.azimuth_change != 0


def test_matches_that_make_no_sense_are_refused():
    zone = ZoneInfo("Asia/Singapore")
    spot = PLACES["Asia/Singapore"]
    for n in range(0, 365, 7):
        wedding = datetime(2026, 1, 10, 12, tzinfo=zone) + timedelta(n)
        visit = wedding.date() - timedelta(21)
        near = match_visit(spot, zone, wedding, visit).at
        for match in (
            same_azimuth(spot, zone, wedding, visit),
            same_altitude(spot, zone, wedding, visit),
        ):
            if match is not None:
                assert abs(match.at - near) <= timedelta(hours=2)
                assert position(spot, match.at).altitude > 0
                assert abs(match.azimuth_change) < 90


def test_a_higher_sun_than_the_visit_day_has_is_refused():
    zone = ZoneInfo("Europe/London")
    spot = PLACES["Europe/London"]
    noon = datetime(2026, 4, 25, 13, tzinfo=zone)
    assert same_altitude(spot, zone, noon, date(2026, 4, 4)) is None


def test_by_night_only_the_nearest_moment_is_offered():
    zone = ZoneInfo("Europe/London")
    spot = PLACES["Europe/London"]
    late = datetime(2026, 6, 20, 22, 30, tzinfo=zone)
    assert match_visit(spot, zone, late, date(2026, 6, 6)).separation < 1
    assert same_azimuth(spot, zone, late, date(2026, 6, 6)) is None
    assert same_altitude(spot, zone, late, date(2026, 6, 6)) is None
