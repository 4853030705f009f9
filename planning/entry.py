"""One entry of a calendar, and how it is given out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from django.utils.translation import gettext

from .compute.planned import Plan
from .compute.values import HOME, Place

NEVER = datetime(2020, 1, 1, tzinfo=UTC)  # an entry that nobody was given yet


@dataclass(frozen=True, slots=True)
class Entry:
    """What an entry says; two dates instead of times make it last whole days.

    `key` says what it is within its wedding and never changes, whatever else does. `alarms` count
    from the start. `contact` is who to speak to there, with a phone.
    """

    key: str
    summary: str
    start: datetime | date
    end: datetime | date
    place: Place | None = None
    lines: tuple[str, ...] = ()
    contact: str = ""
    alarms: tuple[timedelta, ...] = ()


@dataclass(frozen=True, slots=True)
class Stamped:
    """An entry as it is given out, in the zone of its wedding.

    `sequence` is how often it has changed since somebody was first given it, `changed_at` (UTC)
    when it was first given out as it is. A cancelled one was given out, and is no more.
    """

    entry: Entry
    uid: str
    zone: str
    sequence: int = 0
    changed_at: datetime = NEVER
    cancelled: bool = False


def named(plan: Plan, title: str) -> str:
    names = plan.brief.names
    return gettext("%(title)s: %(names)s") % {"title": title, "names": names} if names else title


def away(place: Place | None) -> Place | None:
    """A place as a calendar has it; home needs no directions."""
    return None if place == HOME else place


def in_charge(place: Place | None) -> str:
    """Who to speak to at a place, and their phone; nobody else's stands in a calendar."""
    known = place.coordinator if place else None
    return ", ".join(filter(None, (known.name, known.phone))) if known else ""


def in_charge_line(place: Place | None) -> tuple[str, ...]:
    """The same as a line of the notes, which more readers show than CONTACT."""
    who = in_charge(place)
    return (gettext("In charge there: %(who)s") % {"who": who},) if who else ()
