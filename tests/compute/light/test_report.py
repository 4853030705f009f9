"""The light command's answer as plain values."""

import json
from datetime import date, time, timedelta, timezone
from datetime import datetime as moment
from zoneinfo import ZoneInfo

import pytest

from planning.compute.light import SUN_EVENTS, light_report
from planning.compute.light.report import _iso
from planning.compute.values import Spot

AUCKLAND, ZONE = Spot(-36.85, 174.76), "Pacific/Auckland"


def test_a_full_report_is_plain_json_with_every_kind():
    report = light_report(AUCKLAND, ZONE, date(2026, 10, 3), time(16, 30), 300, date(2026, 9, 19))
    assert json.loads(json.dumps(report)) == report
    kinds = {e["kind"] for e in report["events"]}
    assert kinds == {height.kind for height in SUN_EVENTS} | {"moonrise", "moonset"}
    assert [e["at"] for e in report["events"]] == sorted(e["at"] for e in report["events"])
    assert report["now"]["lit"] == "front"
    assert report["noon"]["azimuth"] == pytest.approx(0, abs=0.01)  # the sun stands north there
    # The same visit is judged by brute force in test_visit.py.
    assert report["visit"]["at"].startswith("2026-09-19T15:34:4")
    assert report["visit"]["separation"] == pytest.approx(5.44, abs=0.01)
    assert report["second_opinion"]["seconds"] < 6


def test_what_was_not_asked_is_none():
    report = light_report(AUCKLAND, ZONE, date(2026, 10, 3))
    assert (report["now"], report["visit"]) == (None, None)
    assert report["moon"]["at"] == "2026-10-03T12:00:00+13:00"


def test_absent_events_have_a_reason_and_no_time():
    report = light_report(Spot(78.2, 15.6), "Arctic/Longyearbyen", date(2026, 6, 21))
    assert {"kind": "sunset", "at": None, "reason": "always_up"} in report["events"]


def test_times_round_to_the_nearest_second_but_never_into_another_day():
    zone = timezone(timedelta(hours=2))
    assert _iso(moment(2026, 6, 1, 20, 0, 0, 600_000, zone)) == "2026-06-01T20:00:01+02:00"
    assert _iso(moment(2026, 6, 1, 23, 59, 59, 900_000, zone)) == "2026-06-01T23:59:59+02:00"


def test_rounding_keeps_the_second_of_two_equal_clock_times():
    late = moment(2026, 10, 25, 1, 30, 0, 700_000, ZoneInfo("Europe/London"), fold=1)
    assert _iso(late) == "2026-10-25T01:30:01+00:00"


def test_a_time_the_clocks_skip_is_refused():
    with pytest.raises(ValueError, match="The clocks skip 01:30 on 2026-03-29"):
        light_report(Spot(51.5, 0), "Europe/London", date(2026, 3, 29), time(1, 30))


def test_a_time_that_comes_twice_is_the_first_of_the_two():
    report = light_report(Spot(51.5, 0), "Europe/London", date(2026, 10, 25), time(1, 30))
    assert report["now"]["at"] == "2026-10-25T01:30:00+01:00"
    assert moment.fromisoformat(report["now"]["at"]).astimezone(ZoneInfo("UTC")).hour == 0


@pytest.mark.parametrize("asked", [{"facing": 90.0}, {"visit": date(2026, 9, 1)}])
def test_a_bearing_or_a_visit_without_a_time_is_refused(asked):
    with pytest.raises(ValueError, match="needs the time of day"):
        light_report(AUCKLAND, ZONE, date(2026, 10, 3), **asked)
