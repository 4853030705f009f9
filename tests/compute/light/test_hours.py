"""The local day: right dates in every zone, clock changes, skipped days, clear refusals."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from astral import Observer, SunDirection
from astral.sun import time_at_elevation

from planning.compute.light import position, sun_events, zone_info
from planning.compute.light.hours import window
from planning.compute.values import Spot

PLACES = {
    "Pacific/Auckland": Spot(-36.8485, 174.7633),
    "Pacific/Honolulu": Spot(21.3069, -157.8583),
    "Asia/Kathmandu": Spot(27.7172, 85.3240),
    "Pacific/Chatham": Spot(-43.9535, -176.5597),
    "Pacific/Apia": Spot(-13.8333, -171.7667),
    "Pacific/Kiritimati": Spot(1.8721, -157.4278),
    "America/Los_Angeles": Spot(34.0522, -118.2437),
    "Australia/Lord_Howe": Spot(-31.5553, 159.0821),
}


def by_astral(spot, zone, day, kind):
    """The event by another library's own astronomy, over four UTC dates, kept by local date."""
    direction = SunDirection.RISING if kind == "sunrise" else SunDirection.SETTING
    observer = Observer(spot.latitude, spot.longitude, 0.0)
    found = (
        time_at_elevation(
            observer, -50 / 60, day + timedelta(n), direction, UTC, with_refraction=False
        ).astimezone(ZoneInfo(zone))
        for n in (-1, 0, 1, 2)
    )
    return sorted({at for at in found if at.date() == day})


@pytest.mark.parametrize("zone", PLACES)
def test_every_event_falls_on_its_local_date_through_the_year(zone):
    for n in range(0, 365, 5):
        day = date(2026, 1, 1) + timedelta(n)
        events = sun_events(PLACES[zone], zone, day)
        assert {e.at.date() for e in events} == {day}
        for kind in ("sunrise", "sunset"):
            (mine,) = [e.at for e in events if e.kind == kind]
            (other,) = by_astral(PLACES[zone], zone, day, kind)
            assert abs((mine - other).total_seconds()) < 6


def test_a_sunrise_close_to_midnight_utc_is_found_in_kathmandu():
    events = sun_events(PLACES["Asia/Kathmandu"], "Asia/Kathmandu", date(2026, 4, 10))
    (sunrise,) = [e.at for e in events if e.kind == "sunrise"]
    # SPA altitude root (measured with pvlib 0.16.1): 05:44:40 for the centre of town.
    assert abs((sunrise - sunrise.replace(hour=5, minute=44, second=40)).total_seconds()) < 3


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        ("America/Los_Angeles", date(2026, 3, 8), 23),
        ("America/Los_Angeles", date(2026, 11, 1), 25),
        ("Australia/Lord_Howe", date(2026, 4, 5), 24.5),
        ("Australia/Lord_Howe", date(2026, 10, 4), 23.5),
        ("America/Santiago", date(2026, 9, 6), 23),
        ("America/Santiago", date(2026, 4, 4), 25),
        ("Pacific/Apia", date(2011, 12, 30), 0),
        ("Europe/Madrid", date(2026, 6, 20), 24),
    ],
)
def test_a_local_day_has_as_many_hours_as_the_clocks_say(zone, day, hours):
    start, end = window(ZoneInfo(zone), day)
    assert (end - start) / 3600 == hours


@pytest.mark.parametrize(
    ("zone", "day"),
    [
        ("America/Los_Angeles", date(2026, 3, 8)),
        ("America/Los_Angeles", date(2026, 11, 1)),
        ("Australia/Lord_Howe", date(2026, 4, 5)),
        ("Australia/Lord_Howe", date(2026, 10, 4)),
        ("Pacific/Auckland", date(2026, 4, 5)),
        ("Pacific/Auckland", date(2026, 9, 27)),
        ("Pacific/Chatham", date(2026, 9, 27)),
    ],
)
def test_clock_change_days_keep_every_event_once(zone, day):
    for evening in (False, True):
        events = sun_events(PLACES[zone], zone, day, evening=evening)
        assert len(events) == len({e.kind for e in events}) == 16
        assert all(e.at for e in events)
    for kind in ("sunrise", "sunset"):
        (mine,) = [e.at for e in sun_events(PLACES[zone], zone, day) if e.kind == kind]
        (other,) = by_astral(PLACES[zone], zone, day, kind)
        assert mine.utcoffset() == other.utcoffset()
        assert abs((mine - other).total_seconds()) < 6


def test_a_day_the_calendar_skipped_has_no_events():
    events = sun_events(PLACES["Pacific/Apia"], "Pacific/Apia", date(2011, 12, 30))
    assert {(e.at, e.reason) for e in events} == {(None, "not_this_day")}


@pytest.mark.parametrize("name", ["Mars/Base", "", "../etc", "America", "Europe/Madrid "])
def test_an_unknown_zone_is_refused_in_one_line(name):
    with pytest.raises(ValueError, match="time zone") as caught:
        zone_info(name)
    assert "\n" not in str(caught.value)


def test_a_naive_moment_is_refused():
    with pytest.raises(ValueError, match="no time zone"):
        position(PLACES["Pacific/Apia"], datetime(2026, 1, 1, 12))


@pytest.mark.parametrize("day", [date.max, date.min])
def test_a_year_nobody_plans_for_is_refused(day):
    with pytest.raises(ValueError, match="year"):
        sun_events(PLACES["Pacific/Apia"], "Pacific/Apia", day)
