"""Time zones for calendar files: the yearly rule behind a zone, as RFC 5545 (3.6.5) writes it.

icalendar's own `add_missing_timezones()` lists single dates instead, which two of five readers
misread by an hour.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Onset:
    """A change of offset. `wall` is naive, by the clock as it stood before the change."""

    wall: datetime
    before: timedelta
    after: timedelta
    name: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One change that comes back every year (without `day`: never), from `first` on."""

    first: Onset
    day: dict[str, list[str]] | None = None


def build_vtimezone(zone: str, first: int, last: int) -> Timezone | None:
    """A VTIMEZONE that says what zoneinfo says in the years `first` to `last`, both included.

    None where one rule for winter and one for summer cannot say it (a law that changes in those
    years, daylight time that follows the moon): times are then better written in UTC.
    """
    rules = find_rules(zone, first, last)
    if rules is None:
        return None
    component = Timezone()
    component.add("tzid", zone)
    for rule in rules:
        summer = rule.first.after > rule.first.before
        part = TimezoneDaylight() if summer else TimezoneStandard()
        part.add("dtstart", rule.first.wall)
        part.add("tzoffsetfrom", rule.first.before)
        part.add("tzoffsetto", rule.first.after)
        part.add("tzname", rule.first.name)
        if rule.day:
            month = rule.first.wall.month
            part.add("rrule", {"FREQ": "YEARLY", "BYMONTH": month, **rule.day})
        component.add_component(part)
    return component


@lru_cache(maxsize=64)
def find_rules(zone: str, first: int, last: int) -> tuple[Rule, ...] | None:
    """One rule for a zone whose clocks stand still, two where they change, None for the rest."""
    onsets = list(find_onsets(zone, first, last))
    if not onsets:
        start = datetime(first, 1, 1)
        there = start.replace(tzinfo=ZoneInfo(zone))
        offset = there.utcoffset() or timedelta()
        return (Rule(Onset(start, offset, offset, there.tzname() or zone)),)
    forward = [onset for onset in onsets if onset.after > onset.before]
    back = [onset for onset in onsets if onset.after <= onset.before]
    rules = tuple(_rule(each, first, last) for each in (forward, back))
    return None if None in rules else rules


def find_onsets(zone: str, first: int, last: int) -> Iterator[Onset]:
    """Every change of offset in those years, in order, found by bisection to the second."""
    there = ZoneInfo(zone)
    now, end = datetime(first, 1, 1, tzinfo=UTC), datetime(last + 1, 1, 1, tzinfo=UTC)
    while now < end:
        before, after = (each.astimezone(there).utcoffset() for each in (now, now + DAY))
        if before != after:
            low, high = now, now + DAY
            while high - low > timedelta(seconds=1):
                middle = low + (high - low) // 2
                same = middle.astimezone(there).utcoffset() == before
                low, high = (middle, high) if same else (low, middle)
            at = high.replace(microsecond=0)
            wall = (at + before).replace(tzinfo=None)
            yield Onset(wall, before, after, at.astimezone(there).tzname() or zone)
        now += DAY


def _rule(onsets: list[Onset], first: int, last: int) -> Rule | None:
    """The rule behind one onset in each year; every year counts, so it holds for all of them."""
    if [onset.wall.year for onset in onsets] != list(range(first, last + 1)):
        return None
    kinds = {
        (o.wall.month, o.wall.weekday(), o.wall.time(), o.before, o.after, o.name) for o in onsets
    }
    if len(kinds) > 1:
        return None
    weekday = WEEKDAYS[onsets[0].wall.weekday()]
    days = [onset.wall.day for onset in onsets]
    if all((onset.wall + 7 * DAY).month != onset.wall.month for onset in onsets):
        return Rule(onsets[0], {"BYDAY": [f"-1{weekday}"]})
    if len({(day - 1) // 7 for day in days}) == 1:
        return Rule(onsets[0], {"BYDAY": [f"{(days[0] - 1) // 7 + 1}{weekday}"]})
    if max(days) - min(days) < 7:  # such as "the Friday from the 23rd on"
        week = [str(min(days) + i) for i in range(7)]
        return Rule(onsets[0], {"BYMONTHDAY": week, "BYDAY": [weekday]})
    return None
