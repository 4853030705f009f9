"""What drawings need of a day: bands without gaps, and a course that holds every full hour."""

from datetime import date, datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from planning.compute.light import light_bands, light_sheet, sun_course
from planning.compute.values import Place, Spot

from .judges import spa_sun

CASES = [
    ("Europe/London", Spot(52.34, -2.61), date(2027, 6, 12)),
    ("Europe/London", Spot(52.34, -2.61), date(2027, 10, 31)),
    ("Europe/Oslo", Spot(69.65, 18.96), date(2027, 6, 21)),
    ("Europe/Oslo", Spot(69.65, 18.96), date(2027, 12, 21)),
    ("Asia/Kathmandu", Spot(27.72, 85.32), date(2027, 4, 10)),
    ("Pacific/Auckland", Spot(-36.85, 174.76), date(2027, 1, 5)),
]
LEVELS = {"night": (-90, -6), "blue": (-6, -4), "golden": (-4, 6), "day": (6, 90)}


@pytest.mark.parametrize(("zone", "spot", "day"), CASES)
def test_every_moment_is_in_the_band_of_spas_height(zone, spot, day):
    tz = ZoneInfo(zone)
    start = datetime(day.year, day.month, day.day, 0, tzinfo=tz)
    bands = light_bands(spot, start, datetime(day.year, day.month, day.day, 23, 59, tzinfo=tz))
    assert bands[0].start == start
    assert all(one.end == other.start and one.kind != other.kind for one, other in pairwise(bands))
    for band in bands:
        first, last = band.start.timestamp() + 2, band.end.timestamp() - 2
        moments = [first + (last - first) * i / 20 for i in range(21)]
        low, high = LEVELS[band.kind]
        assert all(low <= height <= high for height in spa_sun(spot, moments)[0])


@pytest.mark.parametrize(("zone", "spot", "day"), CASES)
def test_the_course_is_the_sun_while_it_is_up_with_every_hour_of_the_clock(zone, spot, day):
    sheet = light_sheet(Place("p", "P", spot=spot), zone, day)
    course = sun_course(sheet)
    assert all(then.sun.altitude > 0 for then in course)
    hours = [then.at for then in course if then.at.minute == 0]
    if course:
        up = (course[-1].at.timestamp() - course[0].at.timestamp()) / 3600
        assert abs(len(hours) - up) <= 1
    assert bool(course) == (sheet.noon.sun.altitude > 0)


def test_without_a_spot_there_is_no_course():
    assert sun_course(light_sheet(Place("p", "P"), "Europe/London", date(2027, 6, 12))) == ()
