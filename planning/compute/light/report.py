"""One day's light as plain values, ready to print: the `light` command's answer."""

from __future__ import annotations

from datetime import date, datetime, time, tzinfo

from planning.compute.values import Spot

from .facing import facing_light
from .hours import solar_noon, zone_info
from .moon import moon, moon_events
from .second import SecondOpinion, second_opinion
from .sun import in_order, position, sun_events
from .visit import VisitMatch, match_visit, same_altitude, same_azimuth

Part = dict[str, object]


def light_report(
    spot: Spot,
    zone: str | tzinfo,
    day: date,
    clock: time | None = None,
    facing: float | None = None,
    visit: date | None = None,
) -> dict[str, object]:
    """Events, noon, the sun and moon at `clock`, how people facing a bearing are lit, the visit.

    `now` is None without `clock`, `visit` without a visit's date (which needs `clock`); the moon
    is that of `clock`, or of local noon; `second_opinion` is how far astral disagrees. Times are
    ISO 8601 with offset, to the second. Raises ValueError with one clear line.
    """
    tz = zone_info(zone)
    if clock is None and (visit or facing is not None):
        raise ValueError("A bearing or a visit needs the time of day as well.")
    events = in_order((*sun_events(spot, tz, day), *moon_events(spot, tz, day)))
    at = _on(day, clock, tz) if clock else None
    return {
        "events": [{"kind": e.kind, "at": _iso(e.at), "reason": e.reason} for e in events],
        "noon": _noon(spot, tz, day),
        "now": _now(spot, at, facing) if at else None,
        "visit": _visit(spot, tz, at, visit) if at and visit else None,
        "moon": _moon(tz, at or datetime.combine(day, time(12), tzinfo=tz)),
        "second_opinion": _second(second_opinion(spot, tz, day, events)),
    }


def _on(day: date, clock: time, zone: tzinfo) -> datetime:
    at = datetime.combine(day, clock, tzinfo=zone)
    if datetime.fromtimestamp(at.timestamp(), zone).replace(tzinfo=None) != at.replace(tzinfo=None):
        raise ValueError(f"The clocks skip {clock:%H:%M} on {day}.")
    return at


def _iso(at: datetime | None) -> str | None:
    """To the nearest second, but never into another day."""
    if at is None:
        return None
    nearest = datetime.fromtimestamp(at.timestamp() + 0.5, at.tzinfo)
    return (nearest if nearest.date() == at.date() else at).isoformat(timespec="seconds")


def _noon(spot: Spot, zone: tzinfo, day: date) -> Part | None:
    at = solar_noon(spot, zone, day)
    if at is None:
        return None
    sun = position(spot, at)
    return {
        "at": _iso(at),
        "altitude": _short(sun.altitude),
        "apparent_altitude": _short(sun.apparent_altitude),
        "azimuth": _short(sun.azimuth) % 360,
    }


def _now(spot: Spot, at: datetime, facing: float | None) -> Part:
    sun = position(spot, at)
    light = None if facing is None else facing_light(sun.altitude, sun.azimuth, facing)
    return {
        "at": _iso(at),
        "altitude": _short(sun.altitude),
        "apparent_altitude": _short(sun.apparent_altitude),
        "azimuth": _short(sun.azimuth) % 360,
        "shadow_ratio": sun.shadow_ratio and _short(sun.shadow_ratio),
        "shadow_bearing": None if sun.shadow_bearing is None else _short(sun.shadow_bearing) % 360,
        "lit": light and light.lit,
    }


def _visit(spot: Spot, zone: tzinfo, wedding: datetime, day: date) -> Part:
    return {
        **_match(match_visit(spot, zone, wedding, day)),
        "same_azimuth": _maybe(same_azimuth(spot, zone, wedding, day)),
        "same_altitude": _maybe(same_altitude(spot, zone, wedding, day)),
    }


def _maybe(match: VisitMatch | None) -> Part | None:
    return None if match is None else _match(match)


def _match(match: VisitMatch) -> Part:
    return {
        "at": _iso(match.at),
        "separation": _short(match.separation),
        "altitude_change": _short(match.altitude_change),
        "azimuth_change": _short(match.azimuth_change),
    }


def _moon(zone: tzinfo, at: datetime) -> Part:
    face = moon(zone, at)
    return {
        "at": _iso(at),
        "phase": face.phase,
        "illumination": _short(face.illumination),
        "angle": _short(face.angle),
    }


def _second(opinion: SecondOpinion) -> Part:
    seconds = None if opinion.seconds is None else round(opinion.seconds, 1)
    return {"seconds": seconds, "kind": opinion.kind, "compared": opinion.compared}


def _short(value: float) -> float:
    return round(value, 4)
