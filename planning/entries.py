"""What a wedding's calendar says: every entry of a plan, in the reader's language."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils.translation import gettext

from studio.templatetags.clock import block_title

from .compute.planned import Block, Day, Plan
from .compute.settled import SECOND
from .compute.values import HOME, Place
from .visit_words import CHECKLIST, visit_lines

# How long two things last of which only the start is agreed: common practice, no source.
MEETING_LENGTH = VISIT_LENGTH = timedelta(minutes=60)
# Leaving takes no time, but some readers stretch an entry without a length to an hour.
LEAVING_LENGTH = timedelta(minutes=5)
LEAVING_ALARMS = (timedelta(minutes=-30), timedelta())


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a calendar; two dates instead of times make it last whole days.

    `key` says what it is within its wedding and never changes, whatever else does. `alarms` count
    from the start. `sequence` is how often it has changed since somebody was first given it.
    """

    key: str
    summary: str
    start: datetime | date
    end: datetime | date
    place: Place | None = None
    lines: tuple[str, ...] = ()
    alarms: tuple[timedelta, ...] = ()
    sequence: int = 0


def list_entries(plan: Plan) -> tuple[Entry, ...]:
    """Every entry of a plan, in the order of its days; appointments before them come first."""
    entries = _appointments(plan)
    for day in plan.days:
        entries += _leaving(plan, day)
        entries += [_block(plan, block) for block in day.blocks if _is_hers(block)]
    return tuple(entries)


def _is_hers(block: Block) -> bool:
    """A drive that nobody has timed has no length to write; the second photographer has their
    own sheet."""
    return not block.untimed and block.who != SECOND


def _block(plan: Plan, block: Block) -> Entry:
    lines = [gettext("Fixed time")] if block.fixed else []
    return Entry(
        key=f"block/{block.key}",
        summary=_named(plan, block_title(block) or gettext("Something else")),
        start=block.start,
        end=block.end,
        place=_away(block.place),
        lines=(*lines, *_in_charge(block.place), *([block.note] if block.note else [])),
    )


def _leaving(plan: Plan, day: Day) -> list[Entry]:
    if day.leave_home is None:
        return []
    return [
        Entry(
            key=f"leave/{day.brief.key}",
            summary=_named(plan, gettext("Leave home")),
            start=day.leave_home,
            end=day.leave_home + LEAVING_LENGTH,
            place=next((block.place for block in day.blocks if _away(block.place)), None),
            alarms=LEAVING_ALARMS,
        )
    ]


def _away(place: Place | None) -> Place | None:
    """A place as a calendar has it; home needs no directions."""
    return None if place == HOME else place


def _appointments(plan: Plan) -> list[Entry]:
    brief, entries = plan.brief, []
    if brief.answers_due:
        due, end = brief.answers_due, brief.answers_due + timedelta(days=1)
        entries.append(Entry("answers", _named(plan, gettext("Answers due")), due, end))
    if brief.meeting_at:
        start, end = brief.meeting_at, brief.meeting_at + MEETING_LENGTH
        entries.append(Entry("meeting", _named(plan, gettext("Planning meeting")), start, end))
    if brief.visit_at:
        start, end = brief.visit_at, brief.visit_at + VISIT_LENGTH
        title = _named(plan, gettext("Venue visit"))
        place = plan.visit.place if plan.visit else None
        entries.append(Entry("visit", title, start, end, place, _visit_lines(plan, place)))
    return entries


def _visit_lines(plan: Plan, place: Place | None) -> tuple[str, ...]:
    """Who is in charge, where the sun will be, and what to look at."""
    visited = [place] if place else plan.brief.places
    lines = [line for each in visited for line in _visited(each)]
    lines += visit_lines(plan.visit) if plan.visit else []
    return (*lines, *(f"- {item}" for item in CHECKLIST))


def _visited(place: Place) -> tuple[str, ...]:
    return (place.name, *_in_charge(place))


def _in_charge(place: Place | None) -> tuple[str, ...]:
    if place is None or place.coordinator is None:
        return ()
    known = ", ".join(filter(None, (place.coordinator.name, place.coordinator.phone)))
    return (gettext("In charge there: %(who)s") % {"who": known},) if known else ()


def _named(plan: Plan, title: str) -> str:
    names = plan.brief.names
    return gettext("%(title)s: %(names)s") % {"title": title, "names": names} if names else title
