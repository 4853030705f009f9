"""The light sheet: everything the sun and moon do at one place on one day, beside its blocks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime
from functools import lru_cache

from planning.compute.planned import Block, BlockLight, Event, LightSheet, SunThen
from planning.compute.values import Place, Spot

from .facing import facing_light
from .hours import solar_noon, zone_info
from .moon import moon, moon_between
from .second import second_opinion
from .sky import Sky, sun_crossings, sun_knots
from .skyline import Skyline, clearance, passes
from .sun import events_between, position
from .windows import windows_between

HALF = 12 * 3600.0


def light_sheet(place: Place, zone: str, day: date, blocks: Iterable[Block] = ()) -> LightSheet:
    """The light of a date at a place, and on the blocks that happen there.

    Without a spot, or on a date that the calendar skipped, the sheet holds its place alone.
    ValueError as in `sun_events`.
    """
    if place.spot is None:
        return LightSheet(place)
    sheet = _sky_of(place.spot, place.skyline, zone, day)
    return with_blocks(replace(sheet, place=place), blocks)


@lru_cache(maxsize=256)
def _sky_of(
    spot: Spot, skyline: tuple[tuple[float, float], ...], zone: str, day: date
) -> LightSheet:
    """What does not hang on the blocks, kept: a page is planned anew every time it is read."""
    place, tz = Place("", "", spot=spot, skyline=skyline), zone_info(zone)
    noon = solar_noon(spot, zone, day)
    if noon is None:
        return LightSheet(place)
    start, end = noon.timestamp() - HALF, noon.timestamp() + HALF
    clear = clearance(spot, Skyline.noted(skyline), start, end)
    events = events_between(spot, tz, start, end)
    return LightSheet(
        place,
        events=events,
        noon=sun_then(place, noon),
        lowest=Sky(spot).sun_altitude(end),
        windows=windows_between(spot, tz, start, end, clear),
        skyline=passes(clear, tz) if skyline else (),
        moon_events=moon_between(spot, tz, start, end),
        moon=moon(tz, _evening(events, noon)),
        second=second_opinion(spot, tz, day, events),
    )


def forget() -> None:
    """Forget what was kept of earlier days, as a benchmark must."""
    _sky_of.cache_clear()
    sun_knots.cache_clear()
    sun_crossings.cache_clear()


def with_blocks(sheet: LightSheet, blocks: Iterable[Block]) -> LightSheet:
    """The sheet with the sun on each block of its own place; drives have none."""
    if not sheet.events:
        return sheet
    own = (b for b in blocks if b.place == sheet.place and b.kind != "travel")
    return replace(sheet, blocks=tuple(_block_light(sheet.place, block) for block in own))


def sun_then(place: Place, at: datetime, facing: float | None = None) -> SunThen:
    """The sun at the aware datetime `at` over a place that has a spot."""
    sun = position(place.spot, at)
    height = _skyline(place.skyline).height(sun.azimuth)
    clear = sun.altitude > 0 and sun.apparent_altitude > height
    if facing is None:
        return SunThen(at, sun, clear)
    falls = facing_light(sun.altitude, sun.azimuth, facing)
    return SunThen(at, sun, clear, facing, falls.lit, falls.sun_near_lens)


_skyline = lru_cache(maxsize=256)(Skyline.noted)


def facing_of(place: Place, kind: str) -> float | None:
    """Which way people face in a block of that kind: the two, or the groups."""
    if kind == "ceremony":
        return place.ceremony_facing
    return place.group_facing if kind == "groups" else None


def _block_light(place: Place, block: Block) -> BlockLight:
    facing = facing_of(place, block.kind)
    return BlockLight(
        block, sun_then(place, block.start, facing), sun_then(place, block.end, facing)
    )


def _evening(events: Iterable[Event], noon: datetime) -> datetime:
    """When to look at the moon: at sunset, or at noon where the sun does not set."""
    return next((e.at for e in events if e.kind == "sunset" and e.at), noon)
