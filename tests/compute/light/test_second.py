"""The second opinion agrees where it should, speaks when we slip, and survives its failures."""

from datetime import date, timedelta

import pytest

from planning.compute.light import second_opinion, sun_events
from planning.compute.planned import Event
from planning.compute.values import Spot

from .test_hours import PLACES


@pytest.mark.parametrize("zone", PLACES)
def test_astral_agrees_within_six_seconds_below_57_degrees(zone):
    for n in range(0, 365, 30):
        opinion = second_opinion(PLACES[zone], zone, date(2027, 1, 1) + timedelta(n))
        assert opinion.compared == 16
        assert opinion.seconds < 6


def test_an_event_a_minute_off_is_noticed():
    spot, zone, day = PLACES["America/Los_Angeles"], "America/Los_Angeles", date(2026, 6, 20)
    events = sun_events(spot, zone, day)
    shifted = [
        Event(e.kind, e.at + timedelta(minutes=1)) if e.kind == "sunset" else e for e in events
    ]
    opinion = second_opinion(spot, zone, day, shifted)
    assert opinion.kind == "sunset"
    assert opinion.seconds == pytest.approx(60, abs=6)


def test_an_event_on_the_wrong_day_is_noticed():
    spot, zone, day = PLACES["Pacific/Apia"], "Pacific/Apia", date(2026, 6, 20)
    late = [Event(e.kind, e.at + timedelta(hours=13)) for e in sun_events(spot, zone, day)]
    assert second_opinion(spot, zone, day, late).seconds > 3600


def test_where_astral_fails_there_is_only_less_to_compare():
    # Astral raises ValueError for these: it looks up a date, not the event.
    opinion = second_opinion(PLACES["Asia/Kathmandu"], "Asia/Kathmandu", date(2026, 4, 10))
    assert opinion.compared == 16
    polar = second_opinion(Spot(78.2, 15.6), "Arctic/Longyearbyen", date(2026, 12, 21))
    assert (polar.seconds is None) == (polar.compared == 0)


def test_nothing_to_compare_is_no_disagreement():
    opinion = second_opinion(Spot(78.2, 15.6), "Arctic/Longyearbyen", date(2026, 6, 21))
    assert (opinion.seconds, opinion.kind, opinion.compared) == (None, None, 0)
