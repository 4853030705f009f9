"""A light sheet measured, with bare astral and pvlib's SPA on the same days beside it.

The peers do part of the work: astral the sun's boundaries, moonrise, moonset and phase, by its
own date-based calls; SPA the sun's position every minute, and its boundaries drawn from that.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from statistics import median
from time import process_time
from typing import Any
from zoneinfo import ZoneInfo

import astral
from astral import Observer, SunDirection, moon, sun

from planning.compute.light import SUN_EVENTS, light_sheet
from planning.compute.light.sheet import HALF, forget
from planning.compute.planned import Block, LightSheet
from planning.compute.values import Place, Spot

try:
    import numpy
    from pvlib import spa
except ImportError:
    spa = None

GOAL = 0.020
WORK = "light sheet of a day"
SKYLINE = ((0.0, 3.0), (60.0, 8.0), (120.0, 2.0), (240.0, 5.0), (300.0, 12.0))
SITES = (
    ("Europe/London", Spot(51.5, -0.12)),
    ("Europe/Oslo", Spot(59.91, 10.75)),
    ("Atlantic/Reykjavik", Spot(64.15, -21.94)),
    ("America/Los_Angeles", Spot(34.05, -118.24)),
    ("Asia/Kathmandu", Spot(27.72, 85.32)),
    ("Asia/Singapore", Spot(1.35, 103.82)),
    ("Pacific/Auckland", Spot(-36.85, 174.76)),
    ("Australia/Lord_Howe", Spot(-31.56, 159.08)),
)
DAYS = tuple(date(2027, month, 12) for month in (1, 4, 6, 9, 10, 12))
Task = tuple[str, Spot, date]


def works() -> list[Task]:
    return [(zone, spot, day) for zone, spot in SITES for day in DAYS]


def measured(tasks: list[Task]) -> dict[str, Any]:
    """Seconds of the processor a sheet, ours and theirs, and how far theirs are from ours."""
    _our_sheet(tasks[0])
    gc.collect()
    gc.freeze()  # what Django and the peers loaded is nobody's garbage
    ours = [_timed(_our_sheet, task) for task in tasks]
    row: dict[str, Any] = {
        "work": WORK,
        "sheets": len(ours),
        "median": median(seconds for seconds, _ in ours),
        "worst": max(seconds for seconds, _ in ours),
        "goal": GOAL,
        "second_opinion": max(s.second.seconds or 0 for _, s in ours if s.second),
        "astral": _beside(_bare_astral, tasks, ours) | {"version": astral.__version__},
    }
    if spa is not None:
        _spa_day(tasks[0])
        row["spa"] = _beside(_spa_day, tasks, ours)
    return row


def _timed(run: Callable[[Task], Any], task: Task) -> tuple[float, Any]:
    begun = process_time()
    answer = run(task)
    return process_time() - begun, answer


def _our_sheet(task: Task) -> LightSheet:
    """Nothing kept from an earlier sheet; a skyline, both facings and a block an hour."""
    forget()
    zone, spot, day = task
    place = Place("p", "P", spot=spot, ceremony_facing=20.0, group_facing=200.0, skyline=SKYLINE)
    first = datetime(day.year, day.month, day.day, 9, tzinfo=ZoneInfo(zone)).astimezone(UTC)
    hours = [(first + timedelta(hours=i)).astimezone(ZoneInfo(zone)) for i in range(15)]
    kinds = ("ceremony", "groups", "portraits")
    blocks = [
        Block(f"b{i}", kinds[i % 3], "B", at, at + timedelta(minutes=50), place)
        for i, at in enumerate(hours)
    ]
    return light_sheet(place, zone, day, blocks)


Times = dict[str, datetime | None]


def _bare_astral(task: Task) -> Times:
    """The date-based calls, as their documentation shows them; None where one finds nothing."""
    zone, spot, day = task
    observer, tz = Observer(spot.latitude, spot.longitude, 0.0), ZoneInfo(zone)
    found: Times = {}
    for height in SUN_EVENTS:
        way = SunDirection.RISING if height.rising else SunDirection.SETTING
        found[height.kind] = _or_none(
            lambda h=height, w=way: sun.time_at_elevation(
                observer, h.altitude, day, w, tz, with_refraction=False
            )
        )
    for name in ("moonrise", "moonset"):
        _or_none(lambda n=name: getattr(moon, n)(observer, day, tz))
    moon.phase(day)
    return found


def _or_none(call: Callable[[], datetime | None]) -> datetime | None:
    try:
        return call()
    except ValueError:
        return None


def _spa_day(task: Task) -> Times:
    """Positions every minute from midnight to midnight of the sun, boundaries straight between."""
    zone, spot, day = task
    forget()
    noon = light_sheet(Place("n", "N", spot=spot), zone, day).noon
    start = noon.at.timestamp() - HALF
    grid = start + 60.0 * numpy.arange(1441)
    begun = process_time()
    altitude = spa.solar_position_numpy(
        grid, spot.latitude, spot.longitude, 0.0, 1010.0, 10.0, 69.2, 0.5667, 1
    )[3]
    found: Times = {}
    for height in SUN_EVENTS:
        above = altitude >= height.altitude
        turns = numpy.flatnonzero((above[1:] != above[:-1]) & (above[1:] == height.rising))
        found[height.kind] = None
        if len(turns):
            i = turns[0]
            share = (height.altitude - altitude[i]) / (altitude[i + 1] - altitude[i])
            found[height.kind] = datetime.fromtimestamp(grid[i] + 60 * share, ZoneInfo(zone))
    found["seconds"] = process_time() - begun
    return found


def _beside(
    run: Callable[[Task], Times], tasks: list[Task], ours: list[tuple[float, LightSheet]]
) -> dict[str, Any]:
    """A peer's time, its worst and median gap, and how often it found another day or nothing."""
    seconds, gaps, wrong = [], [], 0
    for task, (_, sheet) in zip(tasks, ours, strict=True):
        taken, found = _timed(run, task)
        seconds.append(found.pop("seconds", taken))
        for gap in _gaps(sheet, found):
            gaps += [gap] if gap is not None and gap < HALF else []
            wrong += gap is None or gap >= HALF
    return {
        "median": median(seconds),
        "worst": max(seconds),
        "median_gap": median(gaps),
        "worst_gap": max(gaps),
        "wrong": wrong,
        "compared": len(gaps) + wrong,
    }


def _gaps(sheet: LightSheet, found: Times) -> Iterator[float | None]:
    for event in sheet.events:
        if event.at:
            theirs = found[event.kind]
            yield abs(theirs.timestamp() - event.at.timestamp()) if theirs else None


def as_lines(row: dict[str, Any]) -> Iterator[str]:
    second = f"astral as second opinion differs by at most {row['second_opinion']:.1f} s"
    yield f"{_figures(row['work'], row, row['sheets'])}{1000 * row['goal']:8.0f}  {second}"
    for key, name in (("astral", "  astral bare"), ("spa", "  pvlib SPA, every minute")):
        if peer := row.get(key):
            yield (
                f"{_figures(name, peer, row['sheets'])}       -  from ours "
                f"{peer['median_gap']:.2f} s, at most {peer['worst_gap']:.1f} s; "
                f"another day or none: {peer['wrong']} of {peer['compared']}"
            )
    if "spa" not in row:
        yield "  (no pvlib here: uv sync --group bench)"


def _figures(name: str, row: dict[str, Any], sheets: int) -> str:
    return f"{name:<46}{sheets:>8}{1000 * row['median']:10.1f}{1000 * row['worst']:9.1f}"


HEAD = f"{'light, time of the processor':<46}{'sheets':>8}{'median ms':>10}{'worst':>9}{'goal':>8}"
