"""The venue visit: when, on another day, the sun stands as it will at the wedding."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from math import radians, sin

from planning.compute.values import Spot

from .hours import local, moment, window, zone_info
from .scan import crossings, knots
from .sky import DAY, Direction, Sky, half_turn, separation

# Ours: a match further than this from the nearest sun is of no use to anyone.
REACH = 2 * 3600.0


@dataclass(frozen=True, slots=True)
class VisitMatch:
    """A moment of the visit, and how the sun then differs from the wedding's, in degrees.

    `separation` is the arc between the two suns; `altitude_change` and `azimuth_change` are
    visit less wedding.
    """

    at: datetime
    separation: float
    altitude_change: float
    azimuth_change: float


def match_visit(spot: Spot, zone: str | tzinfo, wedding: datetime, visit: date) -> VisitMatch:
    """The moment on the date `visit` when the sun stands nearest to where it is at `wedding`.

    That is when the apparent solar time is equal: the clock moves by the clock change and a few
    minutes of the equation of time. What is left is the difference in declination (checked
    against brute force to 3 s). `wedding` is an aware datetime; clock changes between the two
    are allowed for. Within two hours of midnight the moment may fall on a neighbouring date.
    """
    tz = zone_info(zone)
    sky = Sky(spot)
    return _match(sky, tz, moment(wedding), _nearest(sky, tz, wedding, visit))


def visit_days(
    spot: Spot, zone: str | tzinfo, wedding: datetime, days: Iterable[date]
) -> tuple[VisitMatch, ...]:
    """The match of each of `days`, best first: the least separation, then the nearest date."""
    found = [match_visit(spot, zone, wedding, day) for day in days]
    then = moment(wedding)
    return tuple(sorted(found, key=lambda m: (m.separation, abs(m.at.timestamp() - then))))


def same_azimuth(
    spot: Spot, zone: str | tzinfo, wedding: datetime, visit: date
) -> VisitMatch | None:
    """The moment of the visit when shadows fall the same way; None when there is no fit one.

    Fit is on that date, within two hours of the nearest sun, on the same side of noon, the sun
    up both times.
    """
    return _same(spot, zone, wedding, visit, lambda a, b: sin(radians(a.azimuth - b.azimuth)))


def same_altitude(
    spot: Spot, zone: str | tzinfo, wedding: datetime, visit: date
) -> VisitMatch | None:
    """The moment of the visit when the sun is as high, its light as soft and its shadows as long.

    None on the terms of `same_azimuth`.
    """
    return _same(spot, zone, wedding, visit, lambda a, b: a.altitude - b.altitude)


def _nearest(sky: Sky, zone: tzinfo, wedding: datetime, visit: date) -> float:
    """The moment of equal apparent solar time whose local date is `visit` (or the nearest)."""
    at = moment(wedding)
    days = (wedding.astimezone(zone).date() - visit).days
    window(zone, visit)
    found = []
    for n in (days, days - 1, days + 1):
        guess = at - n * DAY
        for _ in range(3):
            guess = at - n * DAY + sky.equation_of_time(at) - sky.equation_of_time(guess)
        found.append(guess)
    return next((x for x in found if local(x, zone).date() == visit), found[0])


def _match(sky: Sky, zone: tzinfo, wedding: float, visit: float) -> VisitMatch:
    then, now = sky.sun(wedding), sky.sun(visit)
    return VisitMatch(
        at=local(visit, zone),
        separation=separation(then, now),
        altitude_change=now.altitude - then.altitude,
        azimuth_change=half_turn(now.azimuth - then.azimuth),
    )


def _same(
    spot: Spot,
    zone: str | tzinfo,
    wedding: datetime,
    visit: date,
    gap: Callable[[Direction, Direction], float],
) -> VisitMatch | None:
    tz, sky, at = zone_info(zone), Sky(spot), moment(wedding)
    then, near = sky.sun(at), _nearest(sky, tz, wedding, visit)
    afternoon = sky.hour_angle(at) >= 0

    def curve(when: float) -> float:
        return gap(sky.sun(when), then)

    def fits(when: float) -> bool:
        sun = sky.sun(when)
        same_way = abs(half_turn(sun.azimuth - then.azimuth)) < 90
        same_side = (sky.hour_angle(when) >= 0) == afternoon
        return sun.altitude > 0 and same_way and same_side and local(when, tz).date() == visit

    start, end = near - REACH, near + REACH
    passes = crossings(curve, knots(curve, start, end), 0.0, start, end)
    fit = [x.at for x in passes if fits(x.at)]
    if then.altitude <= 0 or not fit:
        return None
    return _match(sky, tz, at, min(fit, key=lambda when: abs(when - near)))
