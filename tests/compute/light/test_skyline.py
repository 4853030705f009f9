"""What hides the sun at a place: interpolation, and when the sun reaches and leaves it."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest

from planning.compute.light import Skyline, position, refraction, skyline_events, sun_events
from planning.compute.light.scan import knots
from planning.compute.light.skyline import clearance
from planning.compute.values import Spot

VIENNA, ZONE, DAY = Spot(48.2, 16.37), "Europe/Vienna", date(2026, 6, 20)


def at(events, kind):
    return [e.at for e in events if e.kind == kind]


@pytest.mark.parametrize(
    ("bearing", "height"),
    [(90, 10), (135, 15), (180, 20), (0, 5), (45, 7.5), (270, 12.5), (360, 5)],
)
def test_heights_run_straight_between_bearings_and_round_north(bearing, height):
    skyline = Skyline(((90.0, 10.0), (180.0, 20.0), (0.0, 5.0)))
    assert skyline.height(bearing) == pytest.approx(height)


def test_one_point_is_a_wall_all_round_and_none_a_level_horizon():
    assert Skyline(((123.0, 8.0),)).height(300) == 8
    assert Skyline().height(17) == 0


@pytest.mark.parametrize("point", [(-1.0, 5.0), (361.0, 5.0), (10.0, 91.0), (float("nan"), 1.0)])
def test_a_point_off_the_sky_is_refused(point):
    with pytest.raises(ValueError, match="is not between"):
        Skyline((point,))


def test_on_a_level_horizon_half_the_sun_is_left_shortly_before_sunset():
    events = skyline_events(VIENNA, ZONE, DAY, Skyline())
    (leaves,), (sets,) = at(events, "sun_leaves"), at(sun_events(VIENNA, ZONE, DAY), "sunset")
    assert timedelta(0) < sets - leaves < timedelta(minutes=4)
    assert position(VIENNA, leaves).apparent_altitude == pytest.approx(0, abs=0.002)


def test_the_sun_leaves_when_it_looks_as_high_as_the_trees():
    trees = Skyline(((0.0, 0.0), (200.0, 0.0), (250.0, 10.0), (300.0, 14.0), (340.0, 0.0)))
    events = skyline_events(VIENNA, ZONE, DAY, trees)
    (leaves,) = at(events, "sun_leaves")
    sun = position(VIENNA, leaves)
    assert sun.apparent_altitude == pytest.approx(trees.height(sun.azimuth), abs=0.002)
    assert [e.at for e in events if e.at] == sorted(e.at for e in events if e.at)


def test_a_tower_hides_the_sun_and_gives_it_back():
    # The sun stands 27 degrees high over those bearings (the position test judges that).
    tower = Skyline(((0, 0), (275, 0), (276, 40), (281, 40), (282, 0)))
    events = skyline_events(VIENNA, ZONE, DAY, tower)
    assert [e.kind for e in events] == ["sun_reaches", "sun_leaves"] * 2
    hidden = at(events, "sun_reaches")[1] - at(events, "sun_leaves")[0]
    # It moves 11 degrees of bearing an hour there, so 6 degrees take about 34 minutes.
    assert timedelta(minutes=30) < hidden < timedelta(minutes=38)


def test_behind_a_high_wall_the_sun_never_comes():
    events = skyline_events(VIENNA, ZONE, date(2026, 12, 21), Skyline(((0.0, 30.0),)))
    assert {(e.kind, e.at, e.reason) for e in events} == {
        ("sun_reaches", None, "always_down"),
        ("sun_leaves", None, "always_down"),
    }


def test_in_the_midnight_sun_it_never_leaves():
    events = skyline_events(Spot(78.2, 15.6), "Arctic/Longyearbyen", DAY, Skyline())
    assert {e.reason for e in events} == {"always_up"}


@pytest.mark.parametrize("spot", [Spot(52.3, -2.6), Spot(1.3, 103.8), Spot(69.6, 19.0)])
@pytest.mark.parametrize("month", [1, 4, 6, 10])
def test_looking_closely_only_near_the_skyline_misses_nothing(spot, month):
    points = ((0.0, 3.0), (70.0, 11.0), (75.0, 1.0), (110.0, 6.0), (250.0, 2.0), (300.0, 14.0))
    start = datetime(2027, month, 12, tzinfo=UTC).timestamp()
    found = clearance(spot, Skyline(points), start, start + 86400)
    fine = knots(clear_by_hand(spot, Skyline(points)), start, start + 86400, 60.0)
    sides = [knot.value >= 0 for knot in fine if start <= knot.at <= start + 86400]
    assert len(found.passes) == sum(a != b for a, b in pairwise(sides))
    lit = sum(sides) / len(sides) * 86400
    assert found.sunlit(start, start + 86400) == pytest.approx(lit, abs=180)


def clear_by_hand(spot, skyline):
    def clear(at):
        sun = position(spot, datetime.fromtimestamp(at, UTC))
        return sun.altitude + refraction(max(sun.altitude, -50 / 60)) - skyline.height(sun.azimuth)

    return clear


def test_what_nobody_noted_is_level_a_few_degrees_beside_what_they_did():
    skyline = Skyline.noted(((315.0, 12.0),))
    assert skyline.height(315) == 12
    assert skyline.height(310) == pytest.approx(6)
    assert [skyline.height(b) for b in (0, 90, 180, 304, 326)] == [0] * 5


def test_between_two_notes_less_than_a_quarter_turn_apart_it_runs_straight():
    skyline = Skyline.noted(((300.0, 5.0), (330.0, 8.0), (10.0, 3.0)))
    assert skyline.height(315) == pytest.approx(6.5)
    assert skyline.height(350) == pytest.approx(5.5)
    assert [skyline.height(b) for b in (60, 120, 200, 280)] == [0] * 4
