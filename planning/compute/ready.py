"""A wedding's ready list: what must be true by when, and how each of it stands now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from .clock import instant
from .due import day_ends, day_starts, due_at, morning
from .ready_items import ITEMS
from .ready_known import applies, known_of
from .ready_values import LAST_THING, Entry, Item, Known, Ready, ReadyBrief
from .values import N_, DayBrief

NIGHTS = {"night", "after"}  # what stays open when the day is over
WEEK = timedelta(days=7)
GRACE = time(18)  # of the day after the booking, for what would have been due before it


def ready_list(brief: ReadyBrief, now: datetime) -> Ready:
    """The list as it stands `now` (aware), in the order of when things are due."""
    items = [*ITEMS, *brief.own]
    entries = [entry for item in items if applies(item, brief) for entry in _lines(item, brief)]
    marked = [_marked(entry, brief, now) for entry in entries]
    marked.sort(key=lambda entry: entry.due.timestamp() if entry.due else 0)  # else as listed
    days = brief.days
    over = bool(days) and max(day_ends(day, brief.zone) for day in days) <= now
    return Ready(brief, _with_waits(marked, brief, now), over)


def entry_key(item: Item, day: DayBrief | None) -> str:
    """The name under which a tick is kept: the same whatever is added around it."""
    return f"{item.key}.{day.key}" if day and item.due.when != "before" else item.key


def _lines(item: Item, brief: ReadyBrief) -> Iterator[Entry]:
    """Once for the wedding, or once for each day."""
    days = brief.days[:1] if item.due.when == "before" else brief.days
    if not days:
        yield Entry(item.key, item, "undated")
    for index, day in enumerate(days):
        due = _due(item, brief, index)
        yield Entry(entry_key(item, day), item, "later", day, due)


def _due(item: Item, brief: ReadyBrief, index: int) -> datetime:
    """By the table, but by what was agreed where a date was."""
    zone = ZoneInfo(brief.zone)
    if item.key == "answered" and brief.answers_due:
        return instant(brief.answers_due, LAST_THING, brief.zone).astimezone(zone)
    if item.key == "meeting" and brief.meeting_at:
        return brief.meeting_at.astimezone(zone)
    if item.key == "visit" and brief.visit_at:
        return brief.visit_at.astimezone(zone)
    return due_at(item.due, brief.days, index, brief.zone)


def _marked(entry: Entry, brief: ReadyBrief, now: datetime) -> Entry:
    tick, known = brief.ticks.get(entry.key), known_of(entry.item, brief, now, entry.due)
    entry = replace(entry, tick=tick, known=known)
    if tick:
        return replace(entry, mark=tick.state)
    if known and known.done:
        return replace(entry, mark="done")
    return replace(entry, mark=_how_soon(entry, brief, now) if entry.due else "undated")


def _how_soon(entry: Entry, brief: ReadyBrief, now: datetime) -> str:
    if _is_passed(entry, brief, now):
        return "passed"
    if entry.due <= now:
        return "late" if _late_at(entry, brief) <= now else "now"
    local = now.astimezone(entry.due.tzinfo)
    if entry.due.date() == local.date():
        return "today"
    return "week" if entry.due - now <= WEEK else "later"


def _is_passed(entry: Entry, brief: ReadyBrief, now: datetime) -> bool:
    """Whether it is too late to do it: its day is over, or all days for what is done once."""
    if entry.item.due.when in NIGHTS:
        return False
    days = brief.days if entry.item.due.when == "before" else (entry.day,)
    return max(day_ends(day, brief.zone) for day in days) <= now


def _late_at(entry: Entry, brief: ReadyBrief) -> datetime:
    """When it counts as late: nobody is late with what was due before there was a wedding."""
    booked = brief.booked_at
    if booked is None or entry.due >= booked:
        return entry.due
    local = booked.astimezone(entry.due.tzinfo)
    grace = instant(local.date() + timedelta(days=1), GRACE, brief.zone)
    return max(booked, min(grace, morning(brief.days[0], brief.zone)))


def _with_waits(entries: list[Entry], brief: ReadyBrief, now: datetime) -> tuple[Entry, ...]:
    """What must be true before an entry can be: cards are wiped by formatting, and nothing is
    copied before there is anything on them."""
    copies = [entry for entry in entries if entry.item.key == "copies" and entry.day]
    held = tuple(
        Known(False, N_("Two copies of %(wedding)s"), {"wedding": name})
        for name in brief.cards_hold
    )
    waits = {
        "cards": lambda day: (*held, *_days_before(copies, day)),
        "copies": lambda day: _begun(day, brief.zone, now),
        "elsewhere": lambda day: _begun(day, brief.zone, now),
    }
    return tuple(
        replace(entry, waits_for=waits[entry.item.key](entry.day))
        if entry.day and entry.item.key in waits
        else entry
        for entry in entries
    )


def _days_before(copies: list[Entry], day: DayBrief) -> Iterator[Known]:
    for copy in copies:
        if copy.is_open and copy.day.date < day.date:
            yield Known(False, N_("Two copies of %(day)s"), {"day": copy.day.date})


def _begun(day: DayBrief, zone: str, now: datetime) -> tuple[Known, ...]:
    if day_starts(day, zone) <= now:
        return ()
    return (Known(False, N_("the day itself, %(day)s"), {"day": day.date}),)
