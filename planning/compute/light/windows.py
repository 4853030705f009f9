"""The named light of a day: blue, golden, and the hard light of a high sun."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from itertools import pairwise
from typing import NamedTuple

from planning.compute.values import Spot

from .facing import OVERHEAD
from .hours import local, window, zone_info
from .sky import Sky, sun_crossings, sun_knots
from .skyline import Clearance, Skyline, clearance
from .sun import BLUE_FOOT, GOLDEN_FOOT, GOLDEN_TOP

# Common practice, no source: above 45 degrees shadows are shorter than people are tall.
HARSH = 45.0
# Common practice, no source: what a couple portrait session needs, in minutes.
ENOUGH = 15.0


class Band(NamedTuple):
    """Light named after the sun's true altitude in degrees, `low` included."""

    kind: str
    low: float
    high: float


BANDS = (
    Band("blue", BLUE_FOOT, GOLDEN_FOOT),
    Band("golden", GOLDEN_FOOT, GOLDEN_TOP),
    Band("harsh", HARSH, 91.0),
)


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of named light.

    `part` is "morning" (the sun climbs), "evening" or "day" (both, or neither much); `whole` is
    False when the day's edge cuts the stretch; `highest` is the sun's top altitude in it;
    `sunlit_minutes` is how long the sun itself reaches the place over its skyline. `quality` is
    for blue "good" or "short", for golden also "hidden" (soft sky, no sun on the place), for
    harsh "hard" or "overhead".
    """

    kind: str
    part: str
    start: datetime
    end: datetime
    whole: bool
    highest: float
    sunlit_minutes: float
    quality: str

    @property
    def minutes(self) -> float:
        # Subtracting two times of one zone would forget a clock change between them.
        return (self.end.timestamp() - self.start.timestamp()) / 60


def light_windows(
    spot: Spot,
    zone: str | tzinfo,
    day: date,
    skyline: Skyline | None = None,
    evening: bool = False,
) -> tuple[Window, ...]:
    """Every stretch of blue, golden and harsh light on the local `day`, in order of time.

    With `evening` from noon to noon. Without a skyline the horizon is level. ValueError as in
    `sun_events`.
    """
    tz = zone_info(zone)
    start, end = window(tz, day, evening)
    if start == end:
        return ()
    return windows_between(spot, tz, start, end, clearance(spot, skyline or Skyline(), start, end))


def windows_between(
    spot: Spot, zone: tzinfo, start: float, end: float, clear: Clearance
) -> tuple[Window, ...]:
    """The same over any window of seconds since 1970 UTC, scanned against its skyline."""
    found = [
        _window(spot, band, begin, until, (start, end), clear, zone)
        for band in BANDS
        for begin, until in _stretches(spot, band, start, end)
    ]
    return tuple(sorted(found, key=lambda w: (w.start.timestamp(), w.end.timestamp())))


def _stretches(spot: Spot, band: Band, start: float, end: float) -> list[tuple[float, float]]:
    curve = Sky(spot).sun_altitude
    levels = (band.low, band.high)
    passes = [x.at for level in levels for x in sun_crossings(spot, start, end, level)]
    return [
        (begin, until)
        for begin, until in pairwise([start, *sorted(passes), end])
        if begin < until and band.low <= curve((begin + until) / 2) < band.high
    ]


def _window(
    spot: Spot,
    band: Band,
    begin: float,
    until: float,
    edges: tuple[float, float],
    clear: Clearance,
    zone: tzinfo,
) -> Window:
    curve = Sky(spot).sun_altitude
    first, last = curve(begin), curve(until)
    tops = [knot.value for knot in sun_knots(spot, *edges) if begin <= knot.at <= until]
    highest = max(first, last, *tops)
    sunlit = clear.sunlit(begin, until) / 60
    return Window(
        kind=band.kind,
        part="day" if abs(last - first) < 0.5 else "morning" if last > first else "evening",
        start=local(begin, zone),
        end=local(until, zone),
        whole=begin != edges[0] and until != edges[1],
        highest=highest,
        sunlit_minutes=sunlit,
        quality=_quality(band.kind, (until - begin) / 60, highest, sunlit),
    )


def _quality(kind: str, minutes: float, highest: float, sunlit: float) -> str:
    if kind == "harsh":
        return "overhead" if highest > OVERHEAD else "hard"
    if kind == "golden" and sunlit < 1:
        return "hidden"
    return "good" if (sunlit if kind == "golden" else minutes) >= ENOUGH else "short"
