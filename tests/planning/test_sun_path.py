"""The sun's path: the textbook polar plot, and no label on another or over the edge."""

import re
from datetime import UTC, date, datetime, timedelta
from itertools import combinations
from math import hypot
from zoneinfo import ZoneInfo

import pytest

from planning.compute.light import light_sheet
from planning.compute.planned import Block
from planning.compute.values import Place, Spot
from planning.labels import box_of
from planning.polar import MIDDLE_X, MIDDLE_Y, RIM, WIDTH, spot_of
from planning.sun_path import sun_path

SKYLINE = ((0.0, 3.0), (60.0, 8.0), (120.0, 2.0), (240.0, 5.0), (300.0, 12.0))
SITES = [
    ("Europe/London", Spot(52.34, -2.61)),
    ("Europe/Oslo", Spot(69.65, 18.96)),
    ("Asia/Singapore", Spot(1.35, 103.82)),
    ("Asia/Kathmandu", Spot(27.72, 85.32)),
    ("Pacific/Auckland", Spot(-44.7, 169.1)),
]
DAYS = [date(2027, 3, 20), date(2027, 6, 12), date(2027, 12, 12)]
KINDS = ("ceremony", "confetti", "groups", "portraits", "golden")


def draw(zone, spot, day, facing=(20.0, 115.0), skyline=SKYLINE, name="Orchard Barn"):
    place = Place("p", name, frozenset(), spot=spot, ceremony_facing=facing[0],
                  group_facing=facing[1], skyline=skyline)  # fmt: skip
    tz = ZoneInfo(zone)
    noon = datetime(day.year, day.month, day.day, 12, tzinfo=tz).astimezone(UTC)
    starts = [(noon + timedelta(minutes=25 * i)).astimezone(tz) for i in range(5)]
    blocks = [
        Block(kind, kind, kind.title(), at, at + timedelta(minutes=20), place)
        for kind, at in zip(KINDS, starts, strict=True)
    ]
    return sun_path(light_sheet(place, zone, day, blocks), "h")


def boxes(svg):
    found = re.findall(
        r'<text x="([\d.]+)" y="([\d.]+)".*?font-size="(\d+)".*?>([^<]+)</text>', svg
    )
    return [
        (text, box_of(text, float(x), float(y) - float(size) * 0.35, float(size)))
        for x, y, size, text in found
    ]


@pytest.mark.parametrize("facing", [(0.0, 180.0), (90.0, 90.0), (200.0, 250.0)])
@pytest.mark.parametrize("day", DAYS)
@pytest.mark.parametrize(("zone", "spot"), SITES)
def test_no_label_stands_on_another_or_over_the_edge(zone, spot, day, facing):
    labels = boxes(draw(zone, spot, day, facing).svg)
    assert {"N", "E", "S", "W"} <= {text for text, _ in labels}
    for (one, a), (other, b) in combinations(labels, 2):
        # The drawing rounds to a tenth.
        apart = (
            a.right - b.left <= 0.2
            or b.right - a.left <= 0.2
            or a.bottom - b.top <= 0.2
            or b.bottom - a.top <= 0.2
        )
        assert apart, (one, other)
    assert all(box.left >= -0.1 and box.right <= WIDTH + 0.1 for _, box in labels)


def test_legend_lines_fit_the_drawing_however_long():
    svg = draw(*SITES[0], DAYS[1], (202.5, 337.5)).svg
    legend = re.findall(r'class="legend".*?>([^<]+)<', svg)
    assert len(legend) == 5
    assert "the couple face south-south-west, 202°" in legend
    assert all(58 + len(line) * 14 * 0.56 <= WIDTH for line in legend)


def test_the_middle_is_overhead_the_rim_level_north_up_and_east_right():
    assert spot_of(90, 123) == pytest.approx((MIDDLE_X, MIDDLE_Y))
    assert spot_of(0, 0) == pytest.approx((MIDDLE_X, MIDDLE_Y - RIM))
    assert spot_of(0, 90) == pytest.approx((MIDDLE_X + RIM, MIDDLE_Y))
    assert spot_of(45, 180) == pytest.approx((MIDDLE_X, MIDDLE_Y + RIM / 2))


def test_the_noon_of_a_june_day_is_drawn_as_high_as_it_stands():
    """Noon height is 90 less latitude and declination apart: 23.2 degrees on 12 June (SPA)."""
    svg = draw(*SITES[0], DAYS[1]).svg
    course = re.findall(r'class="course" d="([^"]+)"', svg)
    points = [tuple(map(float, p.split())) for d in course for p in re.findall(r"[\d.]+ [\d.]+", d)]
    nearest = min(hypot(x - MIDDLE_X, y - MIDDLE_Y) for x, y in points)
    assert nearest == pytest.approx(RIM * (52.34 - 23.15) / 90, abs=0.3)


def test_the_hours_are_those_of_the_clock():
    for zone, spot in SITES[:1] + SITES[3:4]:
        hours = {text for text, _ in boxes(draw(zone, spot, DAYS[0]).svg) if text.isdigit()}
        assert {"09", "12", "15"} & hours
        assert len(hours) >= 8


def test_every_block_with_a_letter_is_told_apart_and_said_in_the_words():
    path = draw(*SITES[0], DAYS[1])
    assert list(path.letters) == list(KINDS)
    assert sorted(set(path.letters.values())) == ["A", "B", "C", "D", "E"]
    assert "Ceremony 12:00: 58° high in the south-south-east." in path.alt
    assert path.alt.startswith("The sun’s path at Orchard Barn. Highest: 61° high in the south.")


def test_a_sun_that_does_not_rise_is_said_and_a_place_without_a_spot_has_no_drawing():
    assert "The sun does not rise." in draw(*SITES[1], DAYS[2]).alt
    assert sun_path(light_sheet(Place("p", "P"), "Europe/London", DAYS[0]), "h") is None


def test_without_skyline_or_facing_the_legend_does_not_speak_of_them():
    svg = draw(*SITES[0], DAYS[1], (None, None), ()).svg
    assert "skyline" not in svg
    assert "face" not in svg.split("</defs>")[1].replace("font-face", "")


def test_a_places_name_is_shown_as_text():
    path = draw(*SITES[0], DAYS[1], name='"><script>alert(1)</script>')
    assert "<script" not in path.svg
