"""What hides the low sun at a place: trees, hills and roofs, by bearing."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, tzinfo
from itertools import pairwise
from math import isfinite

from planning.compute.planned import Event
from planning.compute.values import Spot

from .hours import local, window, zone_info
from .scan import STEP, Crossing, Knot, crossings, knots
from .sky import Sky
from .sun import RISE, absence, refraction

# The sun moves about a degree of bearing in four minutes; a finer skyline is not seen.
FINE_STEP = 240.0


@dataclass(frozen=True, slots=True)
class Skyline:
    """Heights in degrees seen from the place at bearings from true north, straight between them.

    Empty is a level horizon; one point is a wall all round. ValueError for a bearing beyond
    0 to 360 or a height beyond -10 to 90.
    """

    points: tuple[tuple[float, float], ...] = ()

    def __post_init__(self) -> None:
        for bearing, height in self.points:
            if not isfinite(bearing) or not 0 <= bearing <= 360:
                raise ValueError(f"The bearing {bearing:g} is not between 0 and 360 degrees.")
            if not isfinite(height) or not -10 <= height <= 90:
                raise ValueError(f"The height {height:g} is not between -10 and 90 degrees.")
        object.__setattr__(self, "points", _in_order(self.points))

    def height(self, bearing: float) -> float:
        """Degrees above level at any bearing, interpolated round the compass."""
        if not self.points:
            return 0.0
        bearing %= 360
        after = bisect_right(self.points, bearing, key=lambda point: point[0])
        left, low = self.points[after - 1]
        right, high = self.points[after % len(self.points)]
        width = (right - left) % 360
        return low if width == 0 else low + (high - low) * ((bearing - left) % 360) / width


def _in_order(points: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple(sorted({bearing % 360: height for bearing, height in points}.items()))


@dataclass(frozen=True, slots=True)
class Clearance:
    """How far the sun stands clear of a skyline through a window of seconds since 1970 UTC."""

    passes: tuple[Crossing, ...]
    inside: tuple[Knot, ...]

    @property
    def sunlit(self) -> float:
        """Seconds in the window with the sun on the place."""
        edges = [self.inside[0].at, *(x.at for x in self.passes), self.inside[-1].at]
        lit = self.inside[0].value >= 0
        total = 0.0
        for begin, end in pairwise(edges):
            total += (end - begin) * lit
            lit = not lit
        return total


def clearance(spot: Spot, skyline: Skyline, start: float, end: float) -> Clearance:
    """Scan the apparent altitude of the sun's centre above the skyline at its bearing."""
    sky = Sky(spot)

    def clear(at: float) -> float:
        altitude, azimuth = sky.sun(at)
        return altitude + refraction(max(altitude, RISE)) - skyline.height(azimuth)

    points = knots(clear, start, end, FINE_STEP if skyline.points else STEP)
    inside = tuple(knot for knot in points if start <= knot.at <= end)
    return Clearance(crossings(clear, points, 0.0, start, end), inside)


def skyline_events(
    spot: Spot, zone: str | tzinfo, day: date, skyline: Skyline, evening: bool = False
) -> tuple[Event, ...]:
    """When the sun reaches the place (`sun_reaches`) and leaves it (`sun_leaves`), in order.

    Half the disc counts, lifted by the air; with a level skyline that is a minute or two inside
    sunrise and sunset. Absent kinds say `always_up`, `always_down` or `not_this_day`.
    """
    tz = zone_info(zone)
    start, end = window(tz, day, evening)
    if start == end:
        return tuple(Event(kind, None, "not_this_day") for kind in ("sun_reaches", "sun_leaves"))
    clear = clearance(spot, skyline, start, end)
    found = [
        Event("sun_reaches" if x.rising else "sun_leaves", local(x.at, tz)) for x in clear.passes
    ]
    kinds = {event.kind for event in found}
    reason = absence(0.0, clear.inside)
    missing = [Event(k, None, reason) for k in ("sun_reaches", "sun_leaves") if k not in kinds]
    return (*found, *missing)
