"""What a light sheet says, checked by its own figures."""

from datetime import date

import pytest

from planning.compute.light import light_sheet
from planning.compute.values import Place, Spot
from planning.light_words import (
    KINDS,
    block_lines,
    boundaries,
    low_sun,
    moon_words,
    named_windows,
    night_words,
    second_words,
    sun_words,
)

from .plans import make_block

BARN = Place("barn", "Orchard Barn", spot=Spot(52.34, -2.61), ceremony_facing=20.0)
JUNE = date(2027, 6, 12)
LONDON = "Europe/London"
WALL = tuple((turn, 20.0) for turn in (0.0, 90.0, 180.0, 270.0))


def sheet(place=BARN, zone=LONDON, day=JUNE, *blocks):
    return light_sheet(place, zone, day, blocks)


def at(latitude, day=JUNE):
    return sheet(Place("p", "P", spot=Spot(latitude, 0.0)), "UTC", day)


def test_boundaries_come_in_order_of_time_with_those_that_are_missing_last():
    lines = boundaries(sheet())
    times = [line.at.timestamp() for line in lines if line.at]
    assert times == sorted(times)
    assert "Sunset" in [line.what for line in lines]
    assert lines[-1].at is not None  # no night in June, and `night_words` says so
    missing = [line for line in boundaries(at(70)) if line.at is None]
    assert ("Sunset", "the sun stays above this all day") in {(m.what, m.words) for m in missing}


def test_what_comes_after_midnight_says_so():
    iceland = Place("r", "R", spot=Spot(64.15, -21.94))
    lines = boundaries(sheet(iceland, "Atlantic/Reykjavik", date(2027, 6, 21)))
    (sunset,) = [line for line in lines if line.what == "Sunset"]
    assert sunset.words == "about five past twelve at night, after midnight"


@pytest.mark.parametrize(
    ("latitude", "day", "words"),
    [
        (40, JUNE, "Full night from"),
        (52.34, JUNE, "No night: the sun sinks to 14° below level at most; a full night needs 18°"),
        (70, JUNE, "No night: the sun does not set."),
        (88, date(2027, 12, 21), "Night all day"),
    ],
)
def test_the_night_is_told_or_why_there_is_none(latitude, day, words):
    assert night_words(at(latitude, day)).startswith(words)


def test_the_moon_is_told_by_its_phase_its_share_and_its_times():
    # USNO's phases of 2027 are not to hand: the share is that of Meeus 48.4 in the sheet itself.
    told = sheet()
    share = round(told.moon.illumination * 100)
    assert moon_words(told).startswith(f"{told.moon.phase}, {share} % lit, sets 01:2")


def test_each_window_has_its_quality_and_its_definition():
    names = {n.what: n for n in named_windows(sheet())}
    assert next(iter(names)) == "Blue light, morning"
    assert names["Golden light, evening"].definition == "the sun from 6° above to 4° below level"
    walled = Place("w", "W", spot=BARN.spot, skyline=WALL)
    hidden = {n.what: n.quality for n in named_windows(sheet(walled))}
    assert "the sun itself is out of sight" in hidden["Golden light, evening"]


def test_the_low_sun_is_told_with_its_skyline():
    assert [line.what for line in low_sun(sheet())] == ["Sunrise", "Sunset"]
    walled = Place("w", "W", spot=BARN.spot, skyline=WALL)
    assert [line.what for line in low_sun(sheet(walled))][1:3] == [
        "The sun comes over the skyline",
        "The sun goes behind the skyline",
    ]


@pytest.mark.parametrize(
    ("clock", "sun", "falls", "shadow"),
    [
        ("12:00", "58° to 59° high, south-south-east", "from behind them: their faces", "half"),
        ("05:00", "0° to 3° high, north-east", "in their faces: they squint", "over ten times"),
        ("21:10", "from 2° high to 1° below level, north-west", "from their left", "over ten"),
        ("23:30", "11° to 12° below level", "dark: bring light", "none"),
    ],
)
def test_a_block_says_where_the_sun_is_and_how_it_falls(clock, sun, falls, shadow):
    (line,) = block_lines(
        sheet(BARN, LONDON, JUNE, make_block(JUNE, clock, 20, LONDON, place=BARN))
    )
    assert line.sun.startswith(sun)
    assert falls in line.falls
    assert shadow in line.shadow


def test_who_faces_where_is_asked_only_where_it_matters():
    plain = Place("p", "P", spot=BARN.spot)
    for kind, words in (("ceremony", "nobody has said"), ("groups", "nobody has said"),
                        ("portraits", "direct sun")):  # fmt: skip
        block = make_block(JUNE, "17:30", 20, LONDON, place=plain, kind=kind)
        (line,) = block_lines(sheet(plain, LONDON, JUNE, block))
        assert line.falls.startswith(words)


def test_the_second_opinion_names_its_worst_event_for_every_latitude_and_season():
    for latitude in (-55, 0, 35, 52, 70):
        for month in range(1, 13):
            words = second_words(at(latitude, date(2027, month, 9)))
            assert any(str(kind) in words for kind in KINDS.values())
    assert "nothing to compare" in second_words(at(89.9))


def test_the_sun_on_the_horizon_is_neither_up_nor_down():
    first = next(line for line in boundaries(sheet()) if line.what.startswith("Highest"))
    assert first.what == "Highest sun: 61° high in the south"
    assert sun_words(sheet().noon) == "61° high in the south"
