"""A second opinion: the same events by astral's own astronomy, compared every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo

from astral import Observer, SunDirection
from astral.sun import time_at_elevation

from planning.compute.planned import Event
from planning.compute.values import Spot

from .sky import checked
from .sun import SUN_EVENTS, Height, sun_events

HALF_DAY = 12 * 3600


@dataclass(frozen=True, slots=True)
class SecondOpinion:
    """How far astral disagrees: the most seconds, at which `kind`, over how many events.

    `seconds` and `kind` are None when astral had nothing to compare. Below 57 degrees of
    latitude it stays within 6 s; near the polar circles and on grazing days it wanders by minutes.
    """

    seconds: float | None
    kind: str | None
    compared: int


def second_opinion(
    spot: Spot, zone: str | tzinfo, day: date, events: Sequence[Event] | None = None
) -> SecondOpinion:
    """Compare `events` (those of the local `day` when left out) with astral's times."""
    checked(spot)
    observer = Observer(spot.latitude, spot.longitude, 0.0)
    heights = {height.kind: height for height in SUN_EVENTS}
    known: dict[tuple[float, datetime], float | None] = {}
    gaps = []
    for event in sun_events(spot, zone, day) if events is None else events:
        height = heights.get(event.kind)
        if height is None or event.at is None:
            continue
        key = (height.altitude, event.at)
        if key not in known:
            known[key] = _gap(observer, height, event.at)
        gaps.append((known[key], event.kind))
    compared = [(seconds, kind) for seconds, kind in gaps if seconds is not None]
    worst = max(compared, default=(None, None))
    return SecondOpinion(worst[0], worst[1], len(compared))


def _gap(observer: Observer, height: Height, mine: datetime) -> float | None:
    """Seconds to astral's answer. Asked by date it may slip a day or fail: so try neighbours."""
    direction = SunDirection.RISING if height.rising else SunDirection.SETTING
    nearest = None
    for n in (0, -1, 1):
        when = mine.astimezone(UTC).date() + timedelta(days=n)
        try:
            theirs = time_at_elevation(
                observer, height.altitude, when, direction, UTC, with_refraction=False
            )
        except (ValueError, ArithmeticError):
            continue
        gap = abs((theirs - mine).total_seconds())
        nearest = gap if nearest is None else min(nearest, gap)
        if nearest < HALF_DAY:
            break
    return nearest
