"""What drawings of a day need: the bands of light between two moments, and the sun's course."""

from __future__ import annotations

from datetime import datetime, tzinfo
from itertools import pairwise
from typing import NamedTuple

from planning.compute.planned import LightSheet, SunThen
from planning.compute.values import Spot

from .hours import local, moment
from .sheet import HALF, sun_then
from .sky import Sky, sun_crossings
from .sun import BLUE_FOOT, GOLDEN_FOOT, GOLDEN_TOP

STEP = 600


class Band(NamedTuple):
    """A stretch of "night", "blue", "golden" or "day" by the sun's height."""

    kind: str
    start: datetime
    end: datetime


def light_bands(spot: Spot, start: datetime, end: datetime) -> tuple[Band, ...]:
    """The bands of light between two aware times, without gaps, in the first one's zone."""
    sky, first, last = Sky(spot).sun_altitude, moment(start), moment(end)
    edges = {first, last}
    for level in (BLUE_FOOT, GOLDEN_FOOT, GOLDEN_TOP):
        edges |= {x.at for x in sun_crossings(spot, first, last, level)}
    zone = start.tzinfo
    return tuple(
        Band(_kind(sky((begin + until) / 2)), local(begin, zone), local(until, zone))
        for begin, until in pairwise(sorted(edges))
    )


def _kind(height: float) -> str:
    if height < BLUE_FOOT:
        return "night"
    if height < GOLDEN_FOOT:
        return "blue"
    return "golden" if height < GOLDEN_TOP else "day"


def sun_course(sheet: LightSheet) -> tuple[SunThen, ...]:
    """The sun of a sheet's day every ten minutes of the clock, as far as it is up, in order."""
    if sheet.noon is None:
        return ()
    zone: tzinfo = sheet.noon.at.tzinfo
    start, end = moment(sheet.noon.at) - HALF, moment(sheet.noon.at) + HALF
    # On the clock's own tens of minutes: Kathmandu's hour begins at a quarter past the world's.
    ahead = sheet.noon.at.utcoffset().total_seconds()
    first = start - (start + ahead) % STEP + STEP
    moments = [local(first + STEP * i, zone) for i in range(int((end - first) // STEP) + 1)]
    return tuple(t for t in (sun_then(sheet.place, at) for at in moments) if t.sun.altitude > 0)
