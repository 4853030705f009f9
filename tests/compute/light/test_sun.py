"""Sun events and positions against published values; each source stands in evidence/light.json."""

from datetime import UTC, date, datetime, timedelta, timezone
from math import isclose

import pytest

from planning.compute.light import SUN_EVENTS, position, refraction, solar_noon, sun_events
from planning.compute.values import Spot

from .evidence import VALUES, day_of, entries, minute_of, seconds_between, spot_of, zone_of

GOLDEN = Spot(39.742476, -105.1786)


def times(spot, zone, day, kind, **how):
    return [e.at for e in sun_events(spot, zone, day, **how) if e.kind == kind and e.at]


def test_events_pass_the_published_heights():
    heights = {height.kind: height.altitude for height in SUN_EVENTS}
    assert heights["sunrise"] == VALUES["def-sunrise"]["outputs"]["altitude_deg"]
    twilight = VALUES["def-twilight"]["outputs"]
    for kind in ("civil", "nautical", "astronomical"):
        assert heights[f"{kind}_dawn"] == heights[f"{kind}_dusk"] == twilight[kind]
    bands = VALUES["def-golden-blue"]["outputs"]
    for band in ("golden", "blue"):
        start, end = heights[f"{band}_morning_start"], heights[f"{band}_morning_end"]
        assert [start, end] == bands[band]
        assert [heights[f"{band}_evening_end"], heights[f"{band}_evening_start"]] == bands[band]


@pytest.mark.parametrize(
    "entry", [p for p in entries("rise_transit_set", "rise_set_minutes") if p.id != "usno-bluffton"]
)
def test_published_sunrise_transit_and_sunset_agree(entry):
    spot, zone, day = spot_of(entry), zone_of(entry), day_of(entry)
    tolerance = entry["tolerance"].get("seconds", 60 * entry["tolerance"].get("minutes", 0))
    for kind, printed in entry["outputs"].items():
        found = (
            solar_noon(spot, zone, day) if kind == "transit" else times(spot, zone, day, kind)[0]
        )
        assert abs(seconds_between(found, printed)) <= tolerance, kind


@pytest.mark.parametrize("name", ["usno-bluffton", "skyfield-doc-bluffton-seconds"])
def test_published_bluffton_times_agree(name):
    entry = VALUES[name]
    for kind in ("sunrise", "sunset"):
        printed = entry["outputs"][f"{kind}_utc"]
        for text in [printed] if isinstance(printed, str) else printed:
            at = datetime.fromisoformat(text).replace(tzinfo=UTC)
            day = at.astimezone(timezone(timedelta(hours=-4))).date()
            found = times(spot_of(entry), "America/New_York", day, kind)[0]
            assert abs((found - at).total_seconds()) <= entry["tolerance"]["seconds"]


@pytest.mark.parametrize("name", ["nrel-spa-sunrise", "nrel-spa-sunset"])
def test_the_most_quoted_example_holds_on_its_right_evening(name):
    # The published 17:20:19 "on 17 October" is the sunset inside the UT day of the 17th, which
    # in Colorado is the evening of the 16th. The file therefore gives the 16th.
    entry = VALUES[name]
    found = times(spot_of(entry), zone_of(entry), day_of(entry), entry["kind"])
    assert len(found) == 1
    assert abs(seconds_between(found[0], entry["outputs"]["local_time"])) <= 2


def test_the_most_quoted_example_is_not_the_sunset_of_its_own_date():
    # SPA altitude root for 17 October 2003 local: 17:18:51 (measured with pvlib 0.16.1).
    found = times(GOLDEN, timezone(timedelta(hours=-7)), date(2003, 10, 17), "sunset")[0]
    assert abs(seconds_between(found, "17:18:51")) <= 1
    assert found.date() == date(2003, 10, 17)


def test_the_spa_transit_agrees():
    entry = VALUES["nrel-spa-transit"]
    found = solar_noon(spot_of(entry), zone_of(entry), day_of(entry))
    assert abs(seconds_between(found, entry["outputs"]["local_time"])) <= 2


def test_polar_night_begins_and_ends_on_the_published_days():
    entry = VALUES["skyfield-doc-harra-polar-night"]
    for text, printed in entry["outputs"]["sunrise_utc"].items():
        events = sun_events(spot_of(entry), "Etc/UTC", date.fromisoformat(text))
        sunrise = next(e for e in events if e.kind == "sunrise")
        if printed is None:
            assert (sunrise.at, sunrise.reason) == (None, "always_down")
        else:
            assert abs(seconds_between(sunrise.at, printed)) <= entry["tolerance"]["seconds"]


def test_atlanta_2007_agrees_with_the_naval_observatory_minute_by_minute():
    entry = VALUES["usno-atlanta-2007"]
    exact = wrong = 0
    for text, printed in entry["outputs"].items():
        day = date.fromisoformat(text)
        events = sun_events(spot_of(entry), zone_of(entry), day)
        for kind, minute in zip(("sunrise", "sunset"), printed, strict=True):
            at = next(e.at for e in events if e.kind == kind)
            exact += minute_of(at) == minute
            wrong += abs(seconds_between(at, f"{minute[:2]}:{minute[2:]}")) > 90
    assert (exact >= 0.97 * 730, wrong) == (True, 0), exact


def test_two_sunsets_in_one_day_are_both_kept():
    # U.S. Naval Observatory, quoted in astral's issue 102: 00:00 and 23:59 UTC on 7 May 2024.
    found = times(Spot(-30, -100), "Etc/UTC", date(2024, 5, 7), "sunset")
    assert [f"{at:%H:%M:%S}" for at in found] == ["00:00:13", "23:59:28"]


def test_a_sunset_after_midnight_belongs_to_the_evening():
    reykjavik = Spot(64.1466, -21.9426)
    by_calendar = times(reykjavik, "Atlantic/Reykjavik", date(2026, 6, 20), "sunset")
    evening = times(reykjavik, "Atlantic/Reykjavik", date(2026, 6, 20), "sunset", evening=True)
    assert by_calendar[0].hour == 0
    assert evening[0].date() == date(2026, 6, 21)
    assert evening[0] - by_calendar[0] > timedelta(hours=23)


def test_absent_events_say_why():
    tromso = Spot(69.6492, 18.9553)
    summer = {e.kind: e for e in sun_events(tromso, "Europe/Oslo", date(2026, 6, 21))}
    winter = {e.kind: e for e in sun_events(tromso, "Europe/Oslo", date(2026, 12, 21))}
    assert (summer["sunset"].at, summer["sunset"].reason) == (None, "always_up")
    assert (winter["sunrise"].at, winter["sunrise"].reason) == (None, "always_down")
    assert winter["civil_dawn"].at is not None
    half = {e.kind: e for e in sun_events(Spot(64.1466, -21.9426), "UTC", date(2025, 1, 1))}
    assert half["golden_morning_start"].at is not None
    assert half["golden_morning_end"].reason == "always_down"


def test_a_height_passed_only_the_other_way_is_not_this_day():
    # As the white nights begin the sun sets after midnight: one date has a rise and no set.
    reykjavik = Spot(64.1466, -21.9426)
    lone = [
        e
        for n in range(60)
        for e in sun_events(reykjavik, "UTC", date(2026, 5, 25) + timedelta(n))
        if e.kind == "sunset" and e.at is None
    ]
    assert [e.reason for e in lone] == ["not_this_day"]


def test_position_agrees_with_the_spa_report():
    entry = VALUES["nrel-spa-position"]
    out = entry["outputs"]
    found = position(spot_of(entry), datetime.fromisoformat(entry["inputs"]["instant"]))
    assert found.altitude == pytest.approx(out["true_elevation_deg"], abs=0.001)
    assert found.azimuth == pytest.approx(out["azimuth_deg"], abs=0.001)
    assert found.shadow_bearing == pytest.approx(out["azimuth_deg"] - 180, abs=0.001)
    lift = refraction(
        out["true_elevation_deg"],
        pressure=entry["inputs"]["pressure_hPa"],
        celsius=entry["inputs"]["temperature_C"],
    )
    assert out["true_elevation_deg"] + lift == pytest.approx(
        out["apparent_elevation_deg"], abs=1e-5
    )


def test_refraction_agrees_with_meeus():
    out = VALUES["meeus-16a"]["outputs"]
    true_altitude = out["true_upper_limb_arcmin"] / 60
    assert 60 * refraction(true_altitude) == pytest.approx(out["saemundsson_arcmin"], abs=0.01)


def test_the_lowest_midnight_sun_in_utqiagvik_agrees():
    # Skyfield documentation, almanac: 4.7265 degrees at 10:28:55 UTC on 21 June 2023.
    found = position(Spot(71.2906, -156.7886), datetime(2023, 6, 21, 10, 28, 55, tzinfo=UTC))
    assert found.altitude == pytest.approx(4.7265, abs=0.0005)


@pytest.mark.parametrize("entry", [p for p in entries("formula") if p.id.startswith("shadow")])
def test_shadow_ratio_is_the_closed_form(entry):
    # Find the moment the sun stands at that height, then ask for the shadow.
    wanted = entry["inputs"]["altitude_deg"]
    spot, low = Spot(0, 0), datetime(2026, 3, 20, 6, 30, tzinfo=UTC)
    up = low + timedelta(hours=5)
    for _ in range(50):
        middle = low + (up - low) / 2
        low, up = (low, middle) if position(spot, middle).altitude > wanted else (middle, up)
    found = position(spot, low)
    assert isclose(found.altitude, wanted, abs_tol=1e-4)
    assert found.shadow_ratio == pytest.approx(entry["outputs"]["shadow_per_height"], rel=1e-4)


def test_there_is_no_shadow_when_the_sun_is_down():
    night = position(GOLDEN, datetime(2026, 1, 1, 7, tzinfo=UTC))
    assert (night.shadow_ratio, night.shadow_bearing) == (None, None)
    assert night.apparent_altitude == night.altitude < 0


@pytest.mark.parametrize(
    ("spot", "word"),
    [(Spot(134, 0), "Latitude"), (Spot(0, 999), "Longitude"), (Spot(float("nan"), 0), "Latitude")],
)
def test_a_spot_off_the_globe_is_refused_in_one_line(spot, word):
    with pytest.raises(ValueError, match=word) as caught:
        sun_events(spot, "Europe/Madrid", date(2026, 6, 20))
    assert "\n" not in str(caught.value)
