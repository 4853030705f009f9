"""The calendar file (RFC 5545): a plan goes in, bytes come out, the same plan the same bytes."""

from __future__ import annotations

import unicodedata
from datetime import UTC, date, datetime, timedelta, tzinfo
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from django.utils.translation import gettext
from icalendar import Alarm, Calendar, Event, Timezone
from icalendar.prop import vGeo

from .compute.planned import Plan
from .compute.values import Brief, Place, Spot
from .entries import Entry, list_entries
from .zones import build_vtimezone

# Ours alone, and for good: another value here would double every entry somebody already has.
NAMESPACE = UUID("da21513d-45a6-4558-817f-9a8c51298888")
REFRESH = timedelta(hours=6)
# An end must be later than its start (RFC 5545, 3.8.2.2), and some readers stretch an entry without
# one to an hour; a block that has no time left still has its place in the day.
SHORTEST = timedelta(minutes=1)
YEARS_AROUND = 3  # the zone's rule must hold for so many years before and after the entries
UNDATED = datetime(2020, 1, 1, tzinfo=UTC)  # a plan that was never in the database


def calendar_bytes(plan: Plan) -> bytes:
    """A plan as an iCalendar file: local times with their zone's rule, or UTC where it has none."""
    entries = list_entries(plan)
    calendar = _empty_calendar(plan.brief)
    vtimezone = _vtimezone(plan.brief.zone, entries)
    if vtimezone is not None:
        calendar.add_component(vtimezone)  # before the events: some readers need it there
    zone = UTC if vtimezone is None else ZoneInfo(plan.brief.zone)
    for entry in entries:
        calendar.add_component(_event(entry, plan.brief, zone))
    return calendar.to_ical()


def entry_uid(wedding: str, key: str) -> str:
    """What an entry is, as a UID: the same however often its time, place or words change."""
    return str(uuid5(NAMESPACE, f"{wedding}/{key}"))


def _empty_calendar(brief: Brief) -> Calendar:
    calendar = Calendar.new(
        prodid="-//Foreday//Wedding//EN",
        name=_one_line(brief.names) or gettext("Wedding"),  # writes X-WR-CALNAME too
        uid=entry_uid(brief.wedding, "calendar"),
        last_modified=_changed_at(brief),
        refresh_interval=REFRESH,
    )
    calendar["REFRESH-INTERVAL"].params["VALUE"] = "DURATION"  # RFC 7986, 5.7
    return calendar


def _vtimezone(zone: str, entries: tuple[Entry, ...]) -> Timezone | None:
    years = [entry.start.year for entry in entries if isinstance(entry.start, datetime)]
    if not years:
        return None
    first, last = min(years) - YEARS_AROUND, max(years) + YEARS_AROUND
    # A mistyped year (1027, 9027) has no rule worth a search through the centuries.
    return build_vtimezone(zone, first, last) if first > 1970 and last < 2200 else None


def _event(entry: Entry, brief: Brief, zone: tzinfo) -> Event:
    changed = _changed_at(brief)
    start, end = _times(entry, zone)
    event = Event.new(
        uid=entry_uid(brief.wedding, entry.key),
        summary=_one_line(entry.summary),
        start=start,
        end=end,
        stamp=changed,
        last_modified=changed,
        sequence=entry.sequence,
        description="\n".join(map(_clean, entry.lines)) or None,
        classification="PRIVATE",  # the phones in it are other people's
    )
    if not isinstance(entry.start, datetime):
        event.add("transp", "TRANSPARENT")  # a day with something due is not a busy day
    if entry.place:
        _add_place(event, entry.place)
    for trigger in entry.alarms:
        event.add_component(_alarm(entry, trigger))
    return event


def _changed_at(brief: Brief) -> datetime:
    return (brief.changed_at or UNDATED).replace(microsecond=0)


def _times(entry: Entry, zone: ZoneInfo) -> tuple[date, date | None]:
    """Start and end as written; None for an end that is no later than its start."""
    if not isinstance(entry.start, datetime):
        return entry.start, entry.end
    start, end = (each.astimezone(UTC).replace(microsecond=0) for each in (entry.start, entry.end))
    end = max(end, start + SHORTEST)
    local = [each.astimezone(zone) for each in (start, end)]
    # A local time means the first of two that read alike (RFC 5545, 3.3.5): the second needs UTC.
    return (start, end) if any(each.fold for each in local) else (local[0], local[1])


def _add_place(event: Event, place: Place) -> None:
    event.add("location", _location(place))
    if place.spot:
        event.add("geo", Geo(place.spot))


def _location(place: Place) -> str:
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
