"""The moon against the Naval Observatory, Meeus and skyfield; sources in evidence/light.json."""

from datetime import UTC, date, datetime, timedelta
from math import cos, radians

import ephem
import pytest

from planning.compute.light import moon, moon_events, moon_phases
from planning.compute.light.moon import illumination, phase_angle
from planning.compute.light.sky import DAY, EPOCH
from planning.compute.values import Spot

from .evidence import VALUES, entries, minute_of, seconds_between, spot_of, zone_of

NAMES = {
    "new": "new moon",
    "first_quarter": "first quarter",
    "full": "full moon",
    "last_quarter": "last quarter",
}


def test_boston_1984_agrees_with_the_naval_observatory_minute_by_minute():
    entry = VALUES["usno-boston-moon-1984"]
    exact = count = 0
    for text, printed in entry["outputs"].items():
        events = moon_events(spot_of(entry), zone_of(entry), date.fromisoformat(text))
        for kind, minute in zip(("moonrise", "moonset"), printed, strict=True):
            (event,) = [e for e in events if e.kind == kind]
            if minute is None:
                assert (event.at, event.reason) == (None, "not_this_day"), text
                continue
            count += 1
            exact += minute_of(event.at) == minute
            assert abs(seconds_between(event.at, f"{minute[:2]}:{minute[2:]}")) <= 90, text
    assert (count, exact >= 0.95 * count) == (732 - 25, True), exact


def test_moonrise_agrees_with_skyfield_to_the_second():
    entry = VALUES["skyfield-doc-moonrise"]
    for kind in ("moonrise", "moonset"):
        for text in entry["outputs"][f"{kind}_utc"]:
            at = datetime.fromisoformat(text).replace(tzinfo=UTC)
            events = moon_events(spot_of(entry), UTC, at.date())
            (found,) = [e.at for e in events if e.kind == kind]
            assert abs((found - at).total_seconds()) <= entry["tolerance"]["seconds"]


def test_the_moons_edge_is_taken_where_the_definition_says():
    # "def-moonrise": the upper edge 34' below level, by true parallax and width.
    out = VALUES["def-moonrise"]["outputs"]
    spot = Spot(40.8939, -83.8917)
    (rise,) = [e.at for e in moon_events(spot, UTC, date(2023, 12, 27)) if e.kind == "moonrise"]
    observer = ephem.Observer()
    observer.lat, observer.lon = str(spot.latitude), str(spot.longitude)
    observer.pressure, observer.date = 0, rise.replace(tzinfo=None)
    body = ephem.Moon(observer)
    edge = (body.alt + body.radius) * 60 * 180 / ephem.pi
    assert edge == pytest.approx(-out["upper_limb_below_horizon_arcmin"], abs=0.1)


def test_moonrise_can_come_twice_or_never_in_a_high_north():
    reasons = set()
    for n in range(30):
        events = moon_events(Spot(78.2, 15.6), "Arctic/Longyearbyen", date(2026, 6, 1 + n))
        reasons |= {e.reason for e in events}
    assert {"always_up", "always_down"} <= reasons


@pytest.mark.parametrize("name", ["usno-moon-phases-1980", "usno-moon-phases-2018"])
def test_phases_fall_on_the_printed_minute(name):
    entry = VALUES[name]
    printed = [(NAMES[k], datetime.fromisoformat(t)) for k, t in entry["outputs"]]
    found = moon_phases(UTC, printed[0][1].date(), printed[-1][1].date())
    assert [word for word, _ in found] == [word for word, _ in printed]
    for (_, mine), (_, theirs) in zip(found, printed, strict=True):
        gap = abs((mine.replace(tzinfo=None) - theirs).total_seconds())
        assert gap <= entry["tolerance"]["seconds"]


@pytest.mark.parametrize("entry", entries("moon_phase_instant"))
def test_phases_agree_with_meeus(entry):
    dynamical = datetime.fromisoformat(entry["outputs"]["td"]).replace(tzinfo=UTC)
    late = ephem.delta_t(dynamical.timestamp() / DAY + EPOCH)
    day = dynamical.date()
    found = moon_phases(UTC, day - timedelta(1), day + timedelta(1))
    (at,) = [at for word, at in found if word == NAMES[entry["inputs"]["kind"]]]
    gap = abs((at + timedelta(seconds=late) - dynamical).total_seconds())
    assert gap <= entry["tolerance"]["seconds"]


def test_illumination_agrees_with_the_naval_observatory():
    entry = VALUES["usno-moon-illumination-2018"]
    for n, lit in enumerate(entry["outputs"]):
        at = datetime(2018, 9, 9 + n, 5, tzinfo=UTC)
        assert moon(UTC, at).illumination == pytest.approx(lit, abs=entry["tolerance"]["abs"])


def test_illumination_agrees_with_meeus():
    entry = VALUES["meeus-48a"]
    at = datetime(1992, 4, 12, tzinfo=UTC).timestamp() - 59  # dynamical time, 59 s ahead
    out = entry["outputs"]
    found = illumination(at)
    assert found == pytest.approx(out["illuminated_fraction"], abs=entry["tolerance"]["fraction"])
    assert found == pytest.approx((1 + cos(radians(out["phase_angle_deg"]))) / 2, abs=0.0002)


def test_the_phase_angle_agrees_with_skyfield():
    # Skyfield documentation, almanac: "Moon phase: 51.3 degrees" on 19 November 2020.
    assert phase_angle(datetime(2020, 11, 19, tzinfo=UTC).timestamp()) == pytest.approx(
        51.3, abs=0.05
    )


def test_the_phase_is_named_after_the_day_it_falls_on():
    # Full moon 25 September 2018, 02:52 UT (Naval Observatory): the 24th in Los Angeles.
    for zone, day in (("Europe/London", 25), ("America/Los_Angeles", 24)):
        words = [moon(zone, datetime(2018, 9, d, 18, tzinfo=UTC)).phase for d in (23, 24, 25, 26)]
        wanted = ["waxing gibbous"] * (day - 23) + ["full moon"] + ["waning gibbous"] * (26 - day)
        assert words == wanted


def test_the_words_follow_one_another_through_a_month():
    words = []
    for n in range(30):
        word = moon(UTC, datetime(2026, 6, 15, 12, tzinfo=UTC) + timedelta(n)).phase
        words += [word] if words[-1:] != [word] else []
    assert words == [
        "new moon",
        "waxing crescent",
        "first quarter",
        "waxing gibbous",
        "full moon",
        "waning gibbous",
        "last quarter",
        "waning crescent",
        "new moon",
    ]
