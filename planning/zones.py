"""Time zones for calendar files: the yearly rule behind a zone, as RFC 5545 (3.6.5) writes it.

icalendar's own `add_missing_timezones()` lists single dates instead, which two of five readers
misread by an hour.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
DAY = timedelta(days=1)
# Rules are written from this year on, though they are only known to hold around the entries:
# vobject takes for UTC what was at +00:00 from 2000 to 2020, as London is by a rule from 2024.
START = 1970


@dataclass(frozen=True, slots=True)
class Onset:
    """A change of offset. `wall` is naive, by the clock as it stood before the change."""

    wall: datetime
    before: timedelta
    after: timedelta
    name: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One change that comes back every year from `first` on; without `by` it never does."""

    first: Onset
    by: dict[str, list[str]] | None = None


def build_vtimezone(zone: str, first: int, last: int) -> Timezone | None:
    """A VTIMEZONE that says what zoneinfo says in the years `first` to `last`, both included.

    None where times are better written in UTC: where one rule for winter and one for summer
    cannot say it (a law that changes in those years, daylight time that follows the moon), and
    where the zone keeps UTC itself.
    """
    rules = find_rules(zone, first, last)
    if rules is None or not any(rule.first.before or rule.first.after for rule in rules):
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
        if rule.by:
            month = rule.first.wall.month
            part.add("rrule", {"FREQ": "YEARLY", "BYMONTH": month, **rule.by})
        component.add_component(part)
    return component


@lru_cache(maxsize=64)
def find_rules(zone: str, first: int, last: int) -> tuple[Rule, ...] | None:
    """One rule for a zone whose clocks stand still, two where they change, None for the rest."""
    onsets = list(find_onsets(zone, first, last))
    if not onsets:
        there = datetime(first, 1, 1, tzinfo=ZoneInfo(zone))
        offset = there.utcoffset() or timedelta()
        return (Rule(Onset(datetime(START, 1, 1), offset, offset, there.tzname() or zone)),)
    forward = [onset for onset in onsets if onset.after > onset.before]
    back = [onset for onset in onsets if onset.after <= onset.before]
    rules = tuple(_rule(each, first, last) for each in (forward, back))
    return None if None in rules else rules


def find_onsets(zone: str, first: int, last: int) -> Iterator[Onset]:
    """Every change of offset in those years, in order, found by bisection to the second."""
    there = ZoneInfo(zone)
    now, end = datetime(first, 1, 1, tzinfo=UTC), datetime(last + 1, 1, 1, tzinfo=UTC)
    after = now.astimezone(there).utcoffset()
    while now < end:
        before, after = after, (now + DAY).astimezone(there).utcoffset()
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
    wall, days = onsets[0].wall, [onset.wall.day for onset in onsets]
    weekday, month_ends = WEEKDAYS[wall.weekday()], monthrange(START, wall.month)[1]
    if all((onset.wall + 7 * DAY).month != wall.month for onset in onsets):
        low, by = month_ends - 6, {"BYDAY": [f"-1{weekday}"]}
    elif len({(day - 1) // 7 for day in days}) == 1:
        nth = (days[0] - 1) // 7
        low, by = 7 * nth + 1, {"BYDAY": [f"{nth + 1}{weekday}"]}
    elif max(days) - min(days) < 7:  # such as "the Friday from the 23rd on"
        low = min(min(days), month_ends - 6)
        by = {"BYMONTHDAY": [str(low + i) for i in range(7)], "BYDAY": [weekday]}
    else:
        return None
    day = low + (wall.weekday() - date(START, wall.month, low).weekday()) % 7
    return Rule(replace(onsets[0], wall=wall.replace(year=START, day=day)), by)
