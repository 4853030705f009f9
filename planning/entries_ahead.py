"""What lies before the day in the calendar: what is due, appointments, the evening before."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio.templatetags.clock import clock

from .compute.light.hours import FIRST_YEAR, LAST_YEAR
from .compute.planned import Day, Plan
from .entries_ready import evening_lines
from .entry import Entry, in_charge, in_charge_line, named
from .visit_words import CHECKLIST, visit_lines

WHOLE_DAY = timedelta(days=1)
# Common practice, no source: how long two things last of which only the start is agreed, how long
# before the day the couple give their final word, and when there is an evening to get ready in.
MEETING_LENGTH = VISIT_LENGTH = timedelta(minutes=60)
FINAL_WORD = timedelta(days=10)
EVENING, EVENING_LENGTH = time(17), timedelta(minutes=60)
# In the morning too, since batteries take hours.
EVENING_ALARMS = (timedelta(hours=-8), timedelta())
FINAL_LINES = (
    _("Has any time, place or name changed since you agreed?"),
    _("Who comes for the first group, and who fetches whom?"),
    _("Whom do you ring on the day, and who has the rings, the key, the speech?"),
    _("Where do you go if it rains, and by when is that decided?"),
)
ALSO_THAT_EVENING = (
    _("Take with you what you need: there may be no network"),
    _("Sleep: nobody should drive or work tired"),
)


def answers_due(plan: Plan) -> Iterator[Entry]:
    due = plan.brief.answers_due
    if due:
        yield Entry("answers", named(plan, gettext("Answers due")), due, due + WHOLE_DAY)


def meeting(plan: Plan) -> Iterator[Entry]:
    at = plan.brief.meeting_at
    if at:
        title = named(plan, gettext("Planning meeting"))
        yield Entry("meeting", title, at, at + MEETING_LENGTH)


def visit(plan: Plan) -> Iterator[Entry]:
    """Who is in charge, where the sun will be, and what to look at."""
    at = plan.brief.visit_at
    if at is None:
        return
    place = plan.visit.place if plan.visit else None
    visited = [place] if place else plan.brief.places
    lines = [line for each in visited for line in (each.name, *in_charge_line(each))]
    lines += visit_lines(plan.visit) if plan.visit else []
    yield Entry(
        key="visit",
        summary=named(plan, gettext("Venue visit")),
        start=at,
        end=at + VISIT_LENGTH,
        place=place,
        lines=(*lines, *_ticks(CHECKLIST)),
        contact=in_charge(place),
    )


def final_word(plan: Plan) -> Iterator[Entry]:
    """The day on which the couple say that all is as agreed, before the first day."""
    for day in _real_days(plan)[:1]:
        on = day.brief.date - FINAL_WORD
        title = named(plan, gettext("Final confirmation"))
        yield Entry("final", title, on, on + WHOLE_DAY, lines=tuple(_ticks(FINAL_LINES)))


def day_before(plan: Plan) -> Iterator[Entry]:
    """What to get ready, on the evening before; that night, where the day before is a day too."""
    days = _real_days(plan)
    for before, day in zip([None, *days], days, strict=False):
        start, alarms = _evening_before(day, plan.brief.zone), EVENING_ALARMS
        if before and before.blocks and before.blocks[-1].end > start:
            start, alarms = before.blocks[-1].end, (timedelta(),)
        yield Entry(
            key=f"before/{day.brief.key}",
            summary=named(plan, gettext("Get ready for tomorrow")),
            start=start,
            end=start + EVENING_LENGTH,
            lines=(*_ticks(_lines(plan, day)), *_alarm_clock(day)),
            alarms=alarms,
        )


def _lines(plan: Plan, day: Day) -> list[str]:
    return [*evening_lines(plan, day.brief.key), *ALSO_THAT_EVENING]


def _evening_before(day: Day, zone: str) -> datetime:
    return datetime.combine(day.brief.date - WHOLE_DAY, EVENING, ZoneInfo(zone))


def _alarm_clock(day: Day) -> Iterator[str]:
    if day.leave_home:
        words = gettext("Set an alarm: you leave home at %(time)s")
        yield from _ticks([words % {"time": clock(day.leave_home)}])


def _real_days(plan: Plan) -> list[Day]:
    """A year beyond these is a slip, and may have no day before it."""
    return [day for day in plan.days if FIRST_YEAR <= day.brief.date.year <= LAST_YEAR]


def _ticks(items: tuple | list) -> list[str]:
    return [f"- {item}" for item in items]
