"""Named light: where it begins and ends, and how good it is."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.light import Skyline, Window, light_windows, position, sun_events
from planning.compute.values import Spot

VIENNA, ZONE, DAY = Spot(48.2, 16.37), "Europe/Vienna", date(2026, 6, 20)
TROMSO = Spot(69.65, 18.96)


def test_a_summer_day_has_its_five_stretches_in_order():
    found = light_windows(VIENNA, ZONE, DAY)
    assert [(w.kind, w.part, w.whole) for w in found] == [
        ("blue", "morning", True),
        ("golden", "morning", True),
        ("harsh", "day", True),
        ("golden", "evening", True),
        ("blue", "evening", True),
    ]


def test_stretches_begin_and_end_with_the_days_events():
    at = {e.kind: e.at for e in sun_events(VIENNA, ZONE, DAY)}
    for w in light_windows(VIENNA, ZONE, DAY):
        if w.kind != "harsh":
            assert w.start == at[f"{w.kind}_{w.part}_start"]
            assert w.end == at[f"{w.kind}_{w.part}_end"]


def test_harsh_light_is_the_sun_above_45_degrees():
    (harsh,) = [w for w in light_windows(VIENNA, ZONE, DAY) if w.kind == "harsh"]
    for edge in (harsh.start, harsh.end):
        sun = position(VIENNA, edge)
        assert sun.altitude == pytest.approx(45, abs=0.001)
        assert sun.shadow_ratio == pytest.approx(1, abs=0.001)
    # Highest on a solstice: 90 - latitude + obliquity (closed form, 23.436 degrees).
    assert harsh.highest == pytest.approx(90 - 48.2 + 23.436, abs=0.01)
    assert harsh.quality == "overhead"


def test_a_winter_day_far_north_of_the_tropics_has_no_harsh_light():
    kinds = {w.kind for w in light_windows(VIENNA, ZONE, date(2026, 12, 21))}
    assert kinds == {"blue", "golden"}


def test_trees_in_the_west_take_the_sun_from_the_golden_evening():
    trees = Skyline(((0, 0), (250, 0), (260, 12), (330, 12), (340, 0)))
    free, behind = (
        {(w.kind, w.part): w for w in light_windows(VIENNA, ZONE, DAY, skyline)}
        for skyline in (None, trees)
    )
    evening = ("golden", "evening")
    assert free[evening].quality == "good"
    assert 0 < free[evening].sunlit_minutes < free[evening].minutes
    assert (behind[evening].quality, behind[evening].sunlit_minutes) == ("hidden", 0)
    assert behind["golden", "morning"].quality == "good"
    assert behind[evening].start == free[evening].start


def test_in_the_tropics_blue_light_is_short():
    singapore = light_windows(Spot(1.35, 103.8), "Asia/Singapore", DAY)
    assert {w.quality for w in singapore if w.kind == "blue"} == {"short"}


def test_where_the_sun_stays_low_one_golden_stretch_fills_the_day():
    # Tromsø in late January: it rises above -4 and never reaches +6.
    (golden,) = [
        w for w in light_windows(TROMSO, "Europe/Oslo", date(2026, 1, 25)) if w.kind == "golden"
    ]
    assert golden.part == "day"
    assert golden.minutes > 240


def test_midnight_sun_cut_by_the_days_edge_says_so():
    cut = [w for w in light_windows(TROMSO, "Europe/Oslo", DAY) if w.kind == "golden"]
    assert [w.whole for w in cut] == [False, False]
    night = light_windows(TROMSO, "Europe/Oslo", DAY, evening=True)
    (golden,) = [w for w in night if w.kind == "golden"]
    assert golden.whole
    assert golden.start.date() == DAY
    assert golden.end.date() == DAY + timedelta(1)


def test_minutes_count_through_a_clock_change():
    zone = ZoneInfo("Europe/Oslo")
    start, end = (
        datetime(2026, 3, 29, 1, 30, tzinfo=zone),
        datetime(2026, 3, 29, 3, 30, tzinfo=zone),
    )
    assert Window("golden", "day", start, end, True, 1.0, 0.0, "hidden").minutes == 60


def test_a_skipped_day_has_no_light():
    assert light_windows(Spot(-13.83, -171.77), "Pacific/Apia", date(2011, 12, 30)) == ()
