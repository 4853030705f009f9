"""What has changed between two summaries, field by field, one line for each thing that differs.

What only follows from something else that is told is not told again: how long all groups take,
what room the day has for them, and the sun. A time that is fixed has changed when its clock time
is another one; a time that is only planned moves whenever anything before it does, so it has
changed when it begins or ends five minutes or more from what was agreed (own choice, no source).
The summary says such a time to the nearest five minutes, so a change always reads as another time.
A chance is told in steps, and counts only where it fell below the step that was agreed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, TypeVar

from .agreed import Agreed, AgreedGroup, AgreedTime

PLANNED_MAY_MOVE = 5  # minutes
Keyed = TypeVar("Keyed")


@dataclass(frozen=True, slots=True)
class Change:
    """`what` says which field; `was` is None for what is new, `now` for what is gone.

    `name` is what the change is about, in the words of the summary that has it; `key` is that of
    the day, place, time or group, where it is about one.
    """

    what: str
    name: str
    was: Any = None
    now: Any = None
    key: str = field(default="", compare=False)


def changes(was: Agreed, now: Agreed) -> list[Change]:
    """In the order in which a summary is read."""
    return [
        *_field("names", "", was.names, now.names),
        *_days(was, now),
        *_places(was, now),
        *_times(was, now),
        *_groups(was, now),
        *_wishes(was, now),
        *_spoken(was, now),
        *_notes(was, now),
    ]


def _field(what: str, name: str, was: Any, now: Any, key: str = "") -> Iterator[Change]:
    if was != now:
        yield Change(what, name, was, now, key)


def _pairs(
    was: Sequence[Keyed], now: Sequence[Keyed]
) -> Iterator[tuple[Keyed | None, Keyed | None]]:
    """What both have, by key, as it is now; then what is gone."""
    before = {each.key: each for each in was}
    yield from ((before.get(each.key), each) for each in now)
    there = {each.key for each in now}
    yield from ((each, None) for each in was if each.key not in there)


def _days(was: Agreed, now: Agreed) -> Iterator[Change]:
    for one, other in _pairs(was.days, now.days):
        if one is None or other is None:
            yield Change("day", (one or other).title, one and one.date, other and other.date)
            continue
        yield from _field("date", one.title, one.date, other.date)
        yield from _field("day_title", one.title, one.title, other.title)
        hours = [(each.starts, each.ends) for each in (one, other)]
        yield from _field("hours", one.title, *hours)
        yield from _field("holds", one.title, one.holds, other.holds)


def _places(was: Agreed, now: Agreed) -> Iterator[Change]:
    for one, other in _pairs(was.places, now.places):
        if one is None or other is None:
            names = one and one.name, other and other.name
            yield Change("place", (one or other).name, *names, (one or other).key)
            continue
        yield from _field("place", one.name, one.name, other.name, other.key)
        for what in ("address", "wet_plan", "not_allowed"):
            pair = (getattr(each, what) for each in (one, other))
            yield from _field(what, other.name, *pair, other.key)


def _times(was: Agreed, now: Agreed) -> Iterator[Change]:
    dates = [{day.key: day.date for day in each.days} for each in (was, now)]
    for one, other in _pair_times(was.times, now.times):
        if one is None or other is None:
            if (one or other).day in dates[0].keys() & dates[1].keys():  # else the day says it all
                yield Change("time", (one or other).title, one, other, (one or other).key)
            continue
        yield from _field("time_title", one.title, one.title, other.title, other.key)
        if _has_moved(one, other, dates):
            yield Change("time", other.title, one, other, other.key)
        yield from _field("time_place", other.title, one.place, other.place, other.key)
        if None not in (one.sure, other.sure) and other.sure < one.sure:
            yield Change("sure", other.title, one.sure, other.sure, other.key)


def _pair_times(
    was: tuple[AgreedTime, ...], now: tuple[AgreedTime, ...]
) -> Iterator[tuple[AgreedTime | None, AgreedTime | None]]:
    """By key; a block that took over the time of a new answer has another key, and is the same."""
    pairs = list(_pairs(was, now))
    lost = [one for one, other in pairs if other is None]
    for one, other in pairs:
        if other is None:
            continue
        if one is None:
            one = next((b for b in lost if (b.day, b.kind) == (other.day, other.kind)), None)
            lost = [each for each in lost if each is not one]
        yield one, other
    yield from ((each, None) for each in lost)


def _has_moved(one: AgreedTime, other: AgreedTime, dates: list[dict[str, str]]) -> bool:
    if one.fixed != other.fixed:
        return True
    begins, ends = (
        abs(_minute(getattr(one, name), dates[0][one.day])
            - _minute(getattr(other, name), dates[1][other.day]))
        for name in ("start", "end")
    )  # fmt: skip
    return begins >= (1 if one.fixed else PLANNED_MAY_MOVE) or ends >= PLANNED_MAY_MOVE


def _minute(at: datetime, day: str) -> float:
    """Minutes on the clock since the midnight that begins the day, whatever its date is now."""
    midnight = datetime.combine(date.fromisoformat(day), datetime.min.time())
    return (at.replace(tzinfo=None) - midnight).total_seconds() / 60


def _groups(was: Agreed, now: Agreed) -> Iterator[Change]:
    for one, other in _pairs(was.groups, now.groups):
        if one is None or other is None:
            yield Change("group", (one or other).title, one, other, (one or other).key)
            continue
        yield from _field("group_title", one.title, one.title, other.title, other.key)
        yield from _field("group_people", other.title, *map(_people, (one, other)), other.key)
        yield from _field("group_minutes", other.title, one.minutes, other.minutes, other.key)
        yield from _field("group_must", other.title, one.must, other.must, other.key)
    titles = {group.key: group.title for group in now.groups}
    both = [[g.key for g in each.groups if g.key in titles] for each in (was, now)]
    orders = [[titles[key] for key in keys if key in set(both[0]) & set(both[1])] for keys in both]
    yield from _field("order", "", *orders)


def _people(group: AgreedGroup) -> tuple[tuple[str, ...], int, bool]:
    return tuple(sorted(group.people)), group.more, group.everyone


def _wishes(was: Agreed, now: Agreed) -> Iterator[Change]:
    for one, other in _pairs(was.wishes, now.wishes):
        words = one and one.text, other and other.text
        yield from _field("wish", "", *words)
        if one and other:
            yield from _field("wish_kind", other.text, one.kind, other.kind)


def _spoken(was: Agreed, now: Agreed) -> Iterator[Change]:
    """Our own words may be written better one day; that changes nothing between the two."""
    if was.spoken.own or now.spoken.own:
        yield from _field("cannot", "", was.spoken.text, now.spoken.text)


def _notes(was: Agreed, now: Agreed) -> Iterator[Change]:
    for one, other in _pairs(was.notes, now.notes):
        about = (other or one).about
        yield from _field("note", about, one and one.text, other and other.text)


def about_people(change: Change) -> tuple[list[str], list[str]]:
    """Who came into a group and who left it."""
    (was, _more, _all), (now, _more_now, _all_now) = change.was, change.now
    return _without(now, was), _without(was, now)


def _without(names: Iterable[str], others: Iterable[str]) -> list[str]:
    gone = set(others)
    return [name for name in names if name not in gone]
