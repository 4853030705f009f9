"""Bearings and skylines as people type them, and the refusals."""

import pytest

from planning.compute.bearing_text import (
    MOST_LINES,
    parse_bearing,
    parse_skyline,
    skyline_text,
    wind_name,
)

# "Boxing the compass", Wikipedia (table of the 32 points and their true headings).
BOXED = """\
North|N|0.00
North by east|NbE|11.25
North-northeast|NNE|22.50
Northeast by north|NEbN|33.75
Northeast|NE|45.00
Northeast by east|NEbE|56.25
East-northeast|ENE|67.50
East by north|EbN|78.75
East|E|90.00
East by south|EbS|101.25
East-southeast|ESE|112.50
Southeast by east|SEbE|123.75
Southeast|SE|135.00
Southeast by south|SEbS|146.25
South-southeast|SSE|157.50
South by east|SbE|168.75
South|S|180.00
South by west|SbW|191.25
South-southwest|SSW|202.50
Southwest by south|SWbS|213.75
Southwest|SW|225.00
Southwest by west|SWbW|236.25
West-southwest|WSW|247.50
West by south|WbS|258.75
West|W|270.00
West by north|WbN|281.25
West-northwest|WNW|292.50
Northwest by west|NWbW|303.75
Northwest|NW|315.00
Northwest by north|NWbN|326.25
North-northwest|NNW|337.50
North by west|NbW|348.75"""


@pytest.mark.parametrize("row", BOXED.splitlines())
def test_every_point_of_the_compass_is_read_by_name_and_by_letters(row):
    name, letters, degrees = row.split("|")
    for text in (name, name.upper(), name.replace("-", " "), letters, letters.lower()):
        assert parse_bearing(text) == float(degrees), text


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("0", 0),
        ("360", 360),
        ("225", 225),
        ("225.5", 225.5),
        ("225,5 °", 225.5),
        ("45 degrees", 45),
        ("045", 45),
        ("North West", 315),
        ("north-north-west", 337.5),
        ("N.N.W.", 337.5),
        ("due east", 90),
        ("225° SW", 225),
        ("350 N", 350),
        ("  nw\n", 315),
    ],
)
def test_figures_and_other_ways_of_writing_are_read(text, degrees):
    assert parse_bearing(text) == degrees


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "degrees from 0 to 360"),
        ("361", "not between 0 and 360"),
        ("-1", "not between 0 and 360"),
        ("north-south", "no direction"),
        ("NN", "no direction"),
        ("towards the altar", "no direction"),
        ("300° M", "no direction"),
        ("nan", "no direction"),
        ("1e2", "no direction"),
        ("225 NE", "two directions"),
        ("9" * 5000, "degrees from 0 to 360"),
        ("N" * 5000, "degrees from 0 to 360"),
    ],
)
def test_what_is_no_bearing_is_refused_in_one_line(text, words):
    with pytest.raises(ValueError, match=words) as caught:
        parse_bearing(text)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("bearing", "name"), [(0, "N"), (11, "N"), (12, "NNE"), (225, "SW"), (349, "N"), (360, "N")]
)
def test_a_bearing_is_named_after_the_nearest_wind(bearing, name):
    # Sectors of the sixteen winds: 22.5 degrees each, so N runs from 348.75 to 11.25.
    assert wind_name(bearing) == name


def test_a_skyline_is_read_line_by_line_in_its_order():
    text = "NW 12\n\n300 12,5\n north-west by west: 8°\n10, 3\n20° = -2\nsouth west 4 degrees\n"
    points, faults = parse_skyline(text)
    assert faults == ()
    assert points == ((315, 12), (300, 12.5), (303.75, 8), (10, 3), (20, -2), (225, 4))


def test_what_is_shown_again_reads_back_to_the_same_skyline():
    points = ((315.0, 12.0), (303.75, 8.25), (0.0, -2.0), (359.99, 89.01))
    assert parse_skyline(skyline_text(points)) == (points, ())
    assert parse_skyline("") == ((), ())
    assert skyline_text(()) == ""


def test_every_line_that_is_wrong_has_words_of_its_own_and_the_rest_is_read():
    text = "NW 12\nthe barn\n300 95\n400 5\nNW 9\nW 10\n12\nN -11\nE nan"
    points, faults = parse_skyline(text)
    assert points == ((315, 12), (270, 10))
    assert [fault.split(":")[0] for fault in faults] == [f"Line {n}" for n in (2, 3, 4, 5, 7, 8, 9)]
    for fault, words in zip(
        faults,
        ("like NW 12", "height 95", "bearing 400", "twice", "like NW 12", "height -11", "NW 12"),
        strict=True,
    ):
        assert words in fault


def test_north_by_two_figures_is_one_bearing():
    assert "twice" in parse_skyline("0 5\n360 6")[1][0]


@pytest.mark.parametrize("text", ["x" * 100_000, "N 1\n" * 5000, "1 " * 4000, "N" * 59 + " 1"])
def test_a_text_of_any_length_is_answered_shortly(text):
    points, faults = parse_skyline(text)
    assert len(points) <= 1
    assert faults
    assert len(faults) <= MOST_LINES + 1
    assert all(len(fault) < 200 for fault in faults)
