"""Checks of a ready list: what it asks to be looked at beyond ticking it off."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from .clock import instant
from .due import day_ends
from .planned import Finding
from .ready_values import Entry, Ready
from .values import N_

NOON = time(12)


def cards_without_copies(ready: Ready) -> Iterator[Finding]:
    """Cards were ticked as formatted, and the copies of what was on them were not."""
    for entry in ready.entries:
        if entry.item.key == "cards" and entry.mark == "done":
            for wait in entry.waits_for:
                message = N_(
                    "Cards are ticked as formatted, and two copies of %(what)s are not. If any "
                    "card is still as it was, put it aside now."
                )
                values = {"what": next(iter(wait.values.values()))}
                yield Finding("cards_without_copies", "clash", message, values, "ready")


def copies_still_open(ready: Ready) -> Iterator[Finding]:
    for entry in ready.entries:
        if entry.item.key == "copies" and entry.mark == "late" and entry.day:
            message = N_("The cards of %(day)s have no two copies yet: touch none of them.")
            yield Finding("copies_still_open", "clash", message, {"day": entry.day.date}, "ready")


def insurance_gap(ready: Ready) -> Iterator[Finding]:
    """A policy is noted, and does not hold on every day or not in that country."""
    for entry in _open(ready) if ready.brief.days else ():  # without a date there is no gap
        if entry.item.kind and entry.known and entry.known.values:
            values = {"kind": entry.item.title, **entry.known.values}
            message = INSURANCE[next(iter(set(values) & set(INSURANCE)))]
            yield Finding("insurance_gap", "clash", message, values, "insurance")


INSURANCE = {
    "until": N_("%(kind)s: %(insurer)s ends on %(until)s, before %(day)s."),
    "from": N_("%(kind)s: %(insurer)s begins on %(from)s, after %(day)s."),
    "country": N_("%(kind)s: %(insurer)s does not hold in this country: %(country)s."),
}


def clocks_change(ready: Ready) -> Iterator[Finding]:
    """Between the evening before and the end of a day; cameras do not change by themselves."""
    zone = ready.brief.zone
    for day in ready.brief.days:
        before = instant(day.date - timedelta(days=1), NOON, zone)
        if not ready.over and _offset(before, zone) != _offset(day_ends(day, zone), zone):
            message = N_(
                "The clocks change around %(day)s. Phones follow by themselves, cameras do not: "
                "leave every camera as it is until the day is over, or change all of them."
            )
            yield Finding("clocks_change", "look", message, {"day": day.date}, "ready")


def other_zone(ready: Ready) -> Iterator[Finding]:
    """The clock there is not the clock at home."""
    brief = ready.brief
    if not brief.home_zone or ready.over or not brief.days:
        return
    noon = instant(brief.days[0].date, NOON, brief.zone)
    ahead = _offset(noon, brief.zone) - _offset(noon, brief.home_zone)
    if ahead:
        message = N_(
            "The clock there is %(hours)s h ahead of yours: every time here is told on it, and "
            "the cameras are set to it."
        )
        if ahead < timedelta():
            message = N_(
                "The clock there is %(hours)s h behind yours: every time here is told on it, and "
                "the cameras are set to it."
            )
        values = {"hours": f"{abs(ahead) / timedelta(hours=1):g}"}
        yield Finding("other_zone", "look", message, values, "ready")


def hours_unknown(ready: Ready) -> Iterator[Finding]:
    for day in ready.brief.days:
        if not ready.over and (day.starts is None or day.ends is None):
            message = N_(
                "%(day)s: your hours are not settled, so what is due in the morning and in the "
                "night has a usual time."
            )
            yield Finding("hours_unknown", "look", message, {"day": day.date}, "booking")


def same_date_twice(ready: Ready) -> Iterator[Finding]:
    seen: set[date] = set()
    for day in ready.brief.days:
        if day.date in seen:
            message = N_("Two days of this wedding have the same date, %(day)s.")
            yield Finding("same_date_twice", "clash", message, {"day": day.date}, "booking")
        seen.add(day.date)


READY_CHECKS: tuple[Callable[[Ready], Iterator[Finding]], ...] = (
    copies_still_open,
    cards_without_copies,
    insurance_gap,
    same_date_twice,
    hours_unknown,
    clocks_change,
    other_zone,
)


def check_ready(ready: Ready) -> tuple[Finding, ...]:
    return tuple(finding for check in READY_CHECKS for finding in check(ready))


def _open(ready: Ready) -> tuple[Entry, ...]:
    return tuple(entry for entry in ready.entries if entry.is_open)


def _offset(at: datetime, zone: str) -> timedelta:
    return at.astimezone(ZoneInfo(zone)).utcoffset() or timedelta()
