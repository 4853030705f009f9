"""What hides the low sun at a place: trees, hills and roofs, by bearing."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from itertools import pairwise
from math import isfinite

from planning.compute.planned import Event
from planning.compute.values import Spot

from .hours import local, moment, window, zone_info
from .scan import Crossing, Knot, crossings, knots
from .sky import TURN, Sky, sun_knots
from .sun import RISE, absence, refraction

# The sun moves about a degree of bearing in four minutes; a finer skyline is not seen.
FINE_STEP = 240.0
# Degrees: ours.
UNNOTED, SHOULDER = 90.0, 10.0


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

    @classmethod
    def noted(cls, points: Iterable[tuple[float, float]]) -> Skyline:
        """The skyline as people note it: over more than a quarter turn of which nothing is noted
        it is level, but for a few degrees beside what is."""
        given = _in_order(points)
        level = []
        for (left, low), (right, high) in pairwise([*given, *given[:1]]):
            if (right - left) % 360 > UNNOTED or len(given) == 1:
                level += [((left + SHOULDER) % 360, 0.0)] if low > 0 else []
                level += [((right - SHOULDER) % 360, 0.0)] if high > 0 else []
        return cls((*level, *given))

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
    def stretches(self) -> tuple[tuple[float, float], ...]:
        """Every (start, end) in the window with the sun on the place."""
        edges = [self.inside[0].at, *(x.at for x in self.passes), self.inside[-1].at]
        hidden_first = self.inside[0].value < 0
        return tuple(pairwise(edges))[hidden_first::2]

    def sunlit(self, start: float, end: float) -> float:
        """Seconds between two moments of the window with the sun on the place."""
        return sum(max(0.0, min(b, end) - max(a, start)) for a, b in self.stretches)


def clearance(spot: Spot, skyline: Skyline, start: float, end: float) -> Clearance:
    """Scan the apparent altitude of the sun's centre above the skyline at its bearing."""
    sky = Sky(spot)

    def clear(at: float) -> float:
        altitude, azimuth = sky.sun(at)
        return altitude + refraction(max(altitude, RISE)) - skyline.height(azimuth)

    heights = sun_knots(spot, start, end)
    near = tuple(_near(skyline, heights))
    far = {k.at for k in heights if not any(a <= k.at <= b for a, b in near)}
    points = [Knot(at, clear(at)) for at in {*far, start, end}]
    for begin, until in near:
        points += knots(clear, begin, until, FINE_STEP)
    points = tuple(sorted(set(points)))
    inside = tuple(knot for knot in points if start <= knot.at <= end)
    return Clearance(crossings(clear, points, 0.0, start, end), inside)


def _near(skyline: Skyline, heights: Iterable[Knot]) -> Iterator[tuple[float, float]]:
    """Stretches in which the sun may stand as high as any point of the skyline.

    Between two moments the sun climbs or sinks no faster than the sky turns, which bounds it.
    """
    if not skyline.points:
        return
    tops = [height for _, height in skyline.points]
    near: list[float] = []
    for before, after in pairwise(heights):
        swing = (after.at - before.at) * TURN
        middle = (before.value + after.value) / 2
        if middle - swing / 2 <= max(tops) and middle + swing / 2 + 1 >= min(tops):
            near = [near[0] if near else before.at, after.at]
        elif near:
            yield near[0], near[1]
            near = []
    if near:
        yield near[0], near[1]


def sunlit_stretches(
    spot: Spot, skyline: Skyline, start: datetime, end: datetime
) -> tuple[tuple[datetime, datetime], ...]:
    """Every stretch between two aware times with the sun on the place, in the first one's zone."""
    clear, zone = clearance(spot, skyline, moment(start), moment(end)), start.tzinfo
    return tuple((local(begin, zone), local(until, zone)) for begin, until in clear.stretches)


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
    return passes(clearance(spot, skyline, start, end), tz)


def passes(clear: Clearance, zone: tzinfo) -> tuple[Event, ...]:
    """The crossings of a scanned window as events; see `skyline_events`."""
    found = [
        Event("sun_reaches" if x.rising else "sun_leaves", local(x.at, zone)) for x in clear.passes
    ]
    kinds = {event.kind for event in found}
    reason = absence(0.0, clear.inside)
    missing = [Event(k, None, reason) for k in ("sun_reaches", "sun_leaves") if k not in kinds]
    return (*found, *missing)
