"""The calendar file (RFC 5545): entries go in, bytes come out, the same entries the same bytes."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, timedelta, tzinfo
from functools import lru_cache
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from django.utils.translation import gettext
from icalendar import STATUS, Alarm, Calendar, Event, Timezone
from icalendar.prop import vGeo

from .compute.values import Place, Spot
from .entry import NEVER, Entry, Stamped
from .zones import build_vtimezone

# Ours alone, and for good: another value here would double every entry somebody already has.
NAMESPACE = UUID("da21513d-45a6-4558-817f-9a8c51298888")
REFRESH = timedelta(hours=6)
# An end must be later than its start (RFC 5545, 3.8.2.2), and some readers stretch an entry without
# one to an hour; a block that has no time left still has its place in the day.
SHORTEST = timedelta(minutes=1)
END = b"END:VCALENDAR\r\n"
YEARS_AROUND = 3  # the zone's rule must hold for so many years before and after the entries


def calendar_bytes(name: str, entries: Sequence[Stamped]) -> bytes:
    """An iCalendar file: local times with their zone's rule, or UTC where it has none.

    The calendar has no UID of its own, though it may (RFC 7986, 5.3): vdirsyncer 0.21.0 takes it
    for that of every entry, and keeps one of them.
    """
    changed = max((each.changed_at for each in entries), default=NEVER)
    calendar = Calendar.new(
        prodid="-//Foreday//Wedding//EN",
        name=_one_line(name) or gettext("Wedding"),  # writes X-WR-CALNAME too
        last_modified=changed.replace(microsecond=0),
        refresh_interval=REFRESH,
    )
    del calendar["UID"]  # icalendar makes one up
    calendar["REFRESH-INTERVAL"].params["VALUE"] = "DURATION"  # RFC 7986, 5.7
    calendar.add("x-published-ttl", "PT6H")  # the same for readers older than that standard
    rules = _rules(entries)
    for rule in filter(None, rules.values()):
        calendar.add_component(rule)  # before the events: some readers need it there
    head = calendar.to_ical().removesuffix(END)
    return b"".join([head, *(written(e, bool(rules.get(e.zone))) for e in entries), END])


def entry_uid(wedding: str, key: str) -> str:
    """What an entry is, as a UID: the same however often its time, place or words change."""
    return str(uuid5(NAMESPACE, f"{wedding}/{key}"))


def _rules(entries: Iterable[Stamped]) -> dict[str, Timezone | None]:
    """The rule of every zone that is needed, for the years of all entries in it."""
    years: dict[str, list[int]] = {}
    for each in entries:
        if isinstance(each.entry.start, datetime):
            years.setdefault(each.zone, []).append(each.entry.start.year)
    return {zone: _rule(zone, min(found), max(found)) for zone, found in sorted(years.items())}


def _rule(zone: str, first: int, last: int) -> Timezone | None:
    first, last = first - YEARS_AROUND, last + YEARS_AROUND
    # A mistyped year (1027, 9027) has no rule worth a search through the centuries.
    return build_vtimezone(zone, first, last) if first > 1970 and last < 2200 else None


@lru_cache(maxsize=20_000)
def written(stamped: Stamped, local: bool) -> bytes:
    """An entry's lines, kept: each reader of a whole season asks for the same ones every hour."""
    return _event(stamped, ZoneInfo(stamped.zone) if local else UTC).to_ical()


def _event(stamped: Stamped, zone: tzinfo) -> Event:
    entry, changed = stamped.entry, stamped.changed_at.replace(microsecond=0)
    start, end = _times(entry, zone)
    event = Event.new(
        uid=stamped.uid,
        summary=_one_line(entry.summary),
        start=start,
        end=end,
        stamp=changed,
        last_modified=changed,
        sequence=stamped.sequence,
        description="\n".join(map(_clean, entry.lines)) or None,
        classification="PRIVATE",  # the phones in it are other people's
        status=STATUS.CANCELLED if stamped.cancelled else None,
    )
    if stamped.cancelled or not isinstance(entry.start, datetime):
        event.add("transp", "TRANSPARENT")  # a day with something due is not a busy day
    if entry.contact:
        event.add("contact", _one_line(entry.contact))
    if entry.place:
        _add_place(event, entry.place)
    for trigger in entry.alarms:
        event.add_component(_alarm(entry, trigger))
    return event


def _times(entry: Entry, zone: tzinfo) -> tuple[date, date]:
    """Start and end as written."""
    if not isinstance(entry.start, datetime):
        return entry.start, entry.end
    start, end = (each.astimezone(UTC).replace(microsecond=0) for each in (entry.start, entry.end))
    end = max(end, start + SHORTEST)
    local = [each.astimezone(zone) for each in (start, end)]
    # A local time means the first of two that read alike (RFC 5545, 3.3.5): the second needs UTC.
    return (start, end) if any(each.fold for each in local) else (local[0], local[1])


def _add_place(event: Event, place: Place) -> None:
    event.add("location", location_of(place))
    if place.spot:
        event.add("geo", Geo(place.spot))


def location_of(place: Place) -> str:
    name = _one_line(place.name)
    lines = (_one_line(line).strip(" ,") for line in place.address.splitlines())
    address = ", ".join(filter(None, lines))
    if address.casefold().startswith(name.casefold()):
        return address  # many people type the name again
    return ", ".join(filter(None, (name, address)))


class Geo(vGeo):
    """A point in plain decimals: a spot near Greenwich would else be written as 1e-05."""

    def __init__(self, spot: Spot) -> None:
        super().__init__((spot.latitude, spot.longitude))

    def to_ical(self) -> str:
        return f"{self.latitude:.6f};{self.longitude:.6f}"


def _alarm(entry: Entry, trigger: timedelta) -> Alarm:
    alarm = Alarm.new(description=_one_line(entry.summary))
    alarm.add("action", "DISPLAY")
    alarm.TRIGGER = trigger
    return alarm


def _clean(text: str) -> str:
    """Text that RFC 5545 (3.1) lets us write: no control characters but line ends and tabs."""
    lines = text.splitlines()
    return "\n".join(
        "".join(c for c in line if c == "\t" or unicodedata.category(c) != "Cc") for line in lines
    )


def _one_line(text: str) -> str:
    return " ".join(_clean(text).split())
