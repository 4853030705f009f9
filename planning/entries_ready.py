"""What the ready list puts into calendars: the evening before, the night after, insurance."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext

from .compute.clock import later
from .compute.due import due_at
from .compute.light.hours import FIRST_YEAR, LAST_YEAR
from .compute.planned import Plan
from .compute.ready_items import AFTERWARDS, EVENING
from .compute.ready_values import Item
from .entry import Entry, named
from .models import Policy

# How long before it is due each is begun, in minutes: common practice, no source.
LASTS = {"copies": 60, "elsewhere": 30}
AT_ONCE = timedelta()
RENEW = timedelta(days=-28, hours=9)  # four weeks before an insurance ends, at nine in the morning


def evening_lines(plan: Plan, day: str) -> list[str]:
    """The ready list's own words, and the studio's lines for that evening, but for what is not
    needed before that day."""
    lines = [*((item.key, gettext(item.title)) for item in EVENING), *plan.brief.evening_lines]
    return [title for key, title in lines if f"{key}.{day}" not in plan.brief.spared]


def night_after(plan: Plan) -> Iterator[Entry]:
    """The two copies that night, and the one in another place, each with an alarm."""
    days = [each.brief for each in plan.days]
    for index, day in enumerate(days):
        if not FIRST_YEAR <= day.date.year <= LAST_YEAR:
            continue
        for item in AFTERWARDS:
            if item.key in LASTS:
                yield _entry(plan, item, index)


def _entry(plan: Plan, item: Item, index: int) -> Entry:
    days = [each.brief for each in plan.days]
    end = due_at(item.due, days, index, plan.brief.zone)
    start = later(end, -LASTS[item.key]).astimezone(ZoneInfo(plan.brief.zone))
    return Entry(
        key=f"{item.key}/{days[index].key}",
        summary=named(plan, gettext(item.title)),
        start=start,
        end=end,
        lines=(gettext(item.why), *([gettext(item.caution)] if item.caution else [])),
        alarms=(AT_ONCE,),
    )


def insurance_ends() -> Iterator[Entry]:
    """The last day of each policy, told four weeks before."""
    for policy in Policy.objects.all():
        title = gettext("Insurance ends: %(kind)s, %(insurer)s")
        yield Entry(
            key=f"policy/{policy.key}",
            summary=title % {"kind": policy.get_kind_display(), "insurer": policy.insurer},
            start=policy.ends,
            end=policy.ends + timedelta(days=1),
            alarms=(RENEW,),
        )
