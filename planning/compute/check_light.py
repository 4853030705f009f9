"""Checks of the light that the plan's blocks fall into."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from .clock import in_figures
from .light.windows import ENOUGH, HARSH
from .planned import BlockLight, Day, Finding, LightSheet, Plan, SunThen
from .values import N_


def harsh_portraits(plan: Plan) -> Iterator[Finding]:
    """Portraits under a high bare sun, and until when it stays so high."""
    for sheet, lit in _lit(plan, "portraits"):
        high = max(lit.first, lit.last, key=lambda then: then.sun.altitude)
        if not high.clear or high.sun.altitude <= HARSH:
            continue
        message = N_(
            "%(block)s at %(at)s: the sun is %(height)s° high, with hard shadows under the eyes. "
            "Look for open shade; it is lower from %(until)s."
        )
        window = next((w for w in sheet.windows if w.kind == "harsh"), None)
        yield _finding(
            "harsh_portraits",
            message,
            lit,
            height=round(high.sun.altitude),
            until=in_figures(window.end) if window else "",
        )


def groups_face_the_sun(plan: Plan) -> Iterator[Finding]:
    for _sheet, lit in _lit(plan, "groups"):
        facing = _then(lit, "front")
        if facing and facing.sun.altitude <= HARSH:
            message = N_(
                "%(block)s at %(at)s: people face the sun, %(height)s° high, and squint. "
                "Turn them, or find shade."
            )
            height = round(facing.sun.altitude)
            yield _finding("groups_face_the_sun", message, lit, height=height)


def ceremony_back_lit(plan: Plan) -> Iterator[Finding]:
    for _sheet, lit in _lit(plan, "ceremony"):
        behind = _then(lit, "back")
        if behind:
            message = N_(
                "%(block)s at %(at)s: out of doors the sun is behind the two, %(height)s° high, "
                "and their faces are in shade. Keep it out of the viewfinder."
            )
            height = round(behind.sun.altitude)
            yield _finding("ceremony_back_lit", message, lit, height=height)


def golden_behind_skyline(plan: Plan) -> Iterator[Finding]:
    """The evening's golden light where the portraits are, as far as the skyline takes it away."""
    for day in plan.days:
        for sheet in day.light:
            golden, sunset = sheet.window("golden", "evening"), sheet.first("sunset")
            if golden is None or not _for_portraits(sheet):
                continue
            leaves = _last_leaving(sheet)
            values = {
                "place": sheet.place.name,
                "day": day.brief.date,
                "at": in_figures(leaves) if leaves else "",
                "golden": in_figures(golden.start),
                "minutes": _gap(leaves, sunset.at) if leaves and sunset and sunset.at else 0,
            }
            message = _lost(golden.quality, leaves, values["minutes"])
            if message:
                yield Finding("golden_behind_skyline", "look", message, values, "light")


def _lost(quality: str, leaves: datetime | None, minutes: int) -> str:
    if quality == "hidden" and leaves is None:
        return N_("At %(place)s the skyline hides the sun on all of %(day)s.")
    if quality == "hidden":
        return N_(
            "At %(place)s the sun is behind the skyline from %(at)s, before golden light begins "
            "at %(golden)s."
        )
    if minutes >= ENOUGH:
        return N_(
            "At %(place)s the sun goes behind the skyline at %(at)s, %(minutes)s minutes before "
            "it sets: golden light is shorter there."
        )
    return ""


def _for_portraits(sheet: LightSheet) -> bool:
    planned = {lit.block.kind for lit in sheet.blocks}
    return bool(sheet.skyline) and (
        "portraits" in sheet.place.uses or bool(planned & {"portraits", "golden"})
    )


def _last_leaving(sheet: LightSheet) -> datetime | None:
    left = [e.at for e in sheet.skyline if e.kind == "sun_leaves" and e.at]
    return left[-1] if left else None


def sunset_before_portraits(plan: Plan) -> Iterator[Finding]:
    for sheet, lit in _lit(plan, "portraits"):
        sunset = sheet.first("sunset")
        if begins_after_sunset(sheet, lit):
            message = N_("%(block)s begin at %(at)s, when the sun has set (%(sunset)s).")
            yield _finding("sunset_before_portraits", message, lit, sunset=in_figures(sunset.at))


def begins_after_sunset(sheet: LightSheet, lit: BlockLight) -> bool:
    sunset = sheet.first("sunset")
    start = lit.block.start.timestamp()
    return bool(sunset and sunset.at and start >= sunset.at.timestamp())


def no_night(plan: Plan) -> Iterator[Finding]:
    """Nights in which even the sky of nautical twilight does not end, once a day."""
    for day in plan.days:
        sheet = next((sheet for sheet in day.light if sheet.events), None)
        dusk = sheet and sheet.first("nautical_dusk")
        if dusk and dusk.at is None and dusk.reason == "always_up":
            message = N_(
                "No night on %(day)s: at %(place)s the sun sinks to %(height)s° below level at "
                "most, and the sky stays bright."
            )
            if sheet.lowest > 0:
                message = N_("No night on %(day)s: at %(place)s the sun does not set.")
            height = max(0, round(-sheet.lowest))
            values = {"day": day.brief.date, "place": sheet.place.name, "height": height}
            yield Finding("no_night", "look", message, values, "light")


def _lit(plan: Plan, kind: str) -> Iterator[tuple[LightSheet, BlockLight]]:
    for day in plan.days:
        yield from _of_kind(day, kind)


def _of_kind(day: Day, kind: str) -> Iterator[tuple[LightSheet, BlockLight]]:
    for sheet in day.light:
        yield from ((sheet, lit) for lit in sheet.blocks if lit.block.kind == kind)


def _then(lit: BlockLight, side: str) -> SunThen | None:
    """When in a block the bare sun falls from that side: at its start, or at its end."""
    return next((t for t in (lit.first, lit.last) if t.clear and t.lit == side), None)


def _finding(code: str, message: str, lit: BlockLight, **values: object) -> Finding:
    about = {"block": lit.block.title, "at": f"{lit.block.start:%H:%M}"}
    return Finding(code, "look", message, about | values, "light")


def _gap(start: datetime, end: datetime) -> int:
    return round((end.timestamp() - start.timestamp()) / 60)
