"""The light sheet: which day things belong to, and each figure against SPA or its own source."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.light import (
    facing_light,
    light_sheet,
    moon,
    moon_events,
    sun_events,
    sun_then,
    sunlit_stretches,
)
from planning.compute.light.sheet import forget
from planning.compute.light.skyline import Skyline
from planning.compute.planned import Block
from planning.compute.values import Place, Spot

from .judges import spa_sun

BARN = Place("barn", "Orchard Barn", spot=Spot(52.34, -2.61), ceremony_facing=20.0)
LONDON = "Europe/London"
JUNE = date(2027, 6, 12)
WALL = tuple((turn, 58.0) for turn in (0.0, 90.0, 180.0, 270.0))


def block(clock, minutes, kind="ceremony", place=BARN, zone=LONDON, day=JUNE):
    at = datetime.fromisoformat(f"{day}T{clock}").replace(tzinfo=ZoneInfo(zone))
    end = (at.astimezone(UTC) + timedelta(minutes=minutes)).astimezone(ZoneInfo(zone))
    return Block(f"{kind}-{clock}", kind, kind, at, end, place)


def test_on_an_ordinary_day_the_sheet_has_the_days_own_events():
    sheet = light_sheet(BARN, LONDON, JUNE)
    told = {(e.kind, e.at) for e in sheet.events}
    for event in sun_events(BARN.spot, LONDON, JUNE):
        near = [at for kind, at in told if kind == event.kind and (at is None) == (not event.at)]
        assert len(near) == 1
        if event.at:
            assert abs(near[0].timestamp() - event.at.timestamp()) < 0.02


def test_an_evening_that_ends_after_midnight_belongs_to_its_wedding():
    """In June the sun of Reykjavik sets just after midnight by its clock (SPA, below)."""
    place = Place("r", "Reykjavik", spot=Spot(64.15, -21.94))
    sheet = light_sheet(place, "Atlantic/Reykjavik", date(2027, 6, 21))
    rise, sets = sheet.first("sunrise").at, sheet.first("sunset").at
    assert rise.date() == date(2027, 6, 21)
    assert sets.date() == date(2027, 6, 22)
    assert sets.hour == 0
    for at in (rise, sets):
        assert float(spa_sun(place.spot, [at.timestamp()])[0][0]) == pytest.approx(
            -50 / 60, abs=0.001
        )


@pytest.mark.parametrize(
    ("zone", "spot"),
    [
        (LONDON, Spot(51.5, -0.12)),
        ("Pacific/Auckland", Spot(-36.85, 174.76)),
        ("Pacific/Kiritimati", Spot(1.87, -157.43)),
        ("Asia/Kashgar", Spot(39.47, 75.99)),
        ("Europe/Oslo", Spot(69.65, 18.96)),
    ],
)
def test_the_day_is_the_12_hours_on_both_sides_of_its_noon(zone, spot):
    for day in (date(2027, 1, 15), JUNE, date(2027, 10, 31)):
        sheet = light_sheet(Place("p", "P", spot=spot), zone, day)
        assert sheet.noon.at.date() == day
        noon = sheet.noon.at.timestamp()
        highest = float(spa_sun(spot, [noon])[0][0])
        assert sheet.noon.sun.altitude == pytest.approx(highest, abs=0.001)
        assert sheet.lowest == pytest.approx(float(spa_sun(spot, [noon + 43200])[0][0]), abs=0.001)
        for event in sheet.events:
            if event.at:
                before = event.at.timestamp() < noon
                assert before == ("dawn" in event.kind or event.kind in MORNING), event


MORNING = {
    "sunrise",
    "golden_morning_start",
    "golden_morning_end",
    "blue_morning_start",
    "blue_morning_end",
}


def test_a_place_without_a_spot_and_a_day_that_was_skipped_have_no_light():
    assert light_sheet(Place("p", "P"), LONDON, JUNE, [block("14:00", 30)]).blocks == ()
    apia = Place("a", "Apia", spot=Spot(-13.83, -171.77))
    # Samoa left out 30 December 2011 when it crossed the date line (tzdata, Pacific/Apia).
    assert light_sheet(apia, "Pacific/Apia", date(2011, 12, 30)).events == ()


@pytest.mark.parametrize("clock", ["09:00", "14:00", "19:00", "23:00"])
def test_the_sun_of_a_block_is_spas_at_its_start_and_end(clock):
    (lit,) = light_sheet(BARN, LONDON, JUNE, [block(clock, 45)]).blocks
    for then, at in ((lit.first, lit.block.start), (lit.last, lit.block.end)):
        altitude, azimuth = (float(x[0]) for x in spa_sun(BARN.spot, [at.timestamp()]))
        assert then.sun.altitude == pytest.approx(altitude, abs=0.001)
        assert then.sun.azimuth == pytest.approx(azimuth, abs=0.005)
        assert then.lit == facing_light(altitude, azimuth, 20.0).lit
        assert then.clear == (altitude > 0)


def test_only_the_ceremony_and_the_groups_have_a_facing_and_only_their_own():
    place = Place("p", "P", spot=BARN.spot, ceremony_facing=20.0, group_facing=200.0)
    kinds = ("ceremony", "groups", "portraits", "travel")
    blocks = [block("14:00", 20, kind, place) for kind in kinds]
    other = block("15:00", 20, "groups", BARN)
    sheet = light_sheet(place, LONDON, JUNE, [*blocks, other])
    assert [lit.first.facing for lit in sheet.blocks] == [20.0, 200.0, None]


def test_a_wall_hides_the_sun_that_is_lower():
    wall = Place("w", "Wall", spot=BARN.spot, skyline=WALL)
    assert sun_then(wall, block("13:10", 1).start).clear
    assert not sun_then(wall, block("15:30", 1).start).clear
    kinds = [(e.kind, e.at is None) for e in light_sheet(wall, LONDON, JUNE).skyline]
    assert kinds == [("sun_reaches", False), ("sun_leaves", False)]
    assert light_sheet(BARN, LONDON, JUNE).skyline == ()


def test_sunlit_stretches_begin_and_end_as_the_sun_passes_the_skyline():
    points = ((240.0, 0.0), (280.0, 8.0), (320.0, 2.0))
    start, end = block("12:00", 1).start, block("23:00", 1).start
    ((first, last),) = sunlit_stretches(BARN.spot, Skyline(points), start, end)
    assert first == start
    then = sun_then(Place("s", "S", spot=BARN.spot, skyline=points), last)
    height = Skyline(points).height(then.sun.azimuth)
    assert then.sun.apparent_altitude == pytest.approx(height, abs=0.001)


def test_the_moon_is_that_of_the_evening():
    sheet = light_sheet(BARN, LONDON, JUNE)
    assert sheet.moon == moon(LONDON, sheet.first("sunset").at)
    day = {e.kind: e.at for e in moon_events(BARN.spot, LONDON, JUNE)}
    told = {e.kind: e.at for e in sheet.moon_events}
    # Its rise is in the day itself; its set at 01:21 is in both windows too.
    assert abs((told["moonrise"] - day["moonrise"]).total_seconds()) < 0.02


def test_the_second_opinion_is_within_six_seconds_below_57_degrees():
    for month in range(1, 13):
        second = light_sheet(BARN, LONDON, date(2027, month, 12)).second
        assert second.compared >= 12
        assert second.seconds < 6


def test_what_is_kept_of_a_day_is_forgotten_when_asked():
    one = light_sheet(BARN, LONDON, JUNE)
    assert light_sheet(BARN, LONDON, JUNE).noon is one.noon
    forget()
    again = light_sheet(BARN, LONDON, JUNE)
    assert again == one
    assert again.noon is not one.noon
