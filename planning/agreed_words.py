"""How the agreed summary stands, and its times and groups, in words for pages and papers."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.models import Wedding
from studio.templatetags.clock import calendar_date, clock, long_date

from .agreements import Standing
from .agreements import standing as stands
from .compute.agreed import AgreedGroup, AgreedTime
from .compute.agreed_changes import PLANNED_MAY_MOVE
from .compute.planned import Plan
from .meeting_models import Agreement


def about(at: datetime) -> str:
    """A planned time: to the nearest five minutes, as `agreed_changes` counts them."""
    half = PLANNED_MAY_MOVE // 2
    return clock(at - timedelta(minutes=(at.minute + half) % PLANNED_MAY_MOVE - half))


def span(time: AgreedTime) -> str:
    """From when to when; only what is fixed is told to the minute."""
    if time.fixed:
        words = {"start": clock(time.start), "end": about(time.end)}
        return _("%(start)s to about %(end)s") % words
    words = {"start": about(time.start), "end": about(time.end)}
    return _("about %(start)s to %(end)s") % words


def people_of(group: AgreedGroup) -> str:
    """Who is in it, and how many more."""
    said = list(group.people)
    if group.everyone:
        said.insert(0, _("everybody"))
    elif group.more:
        words = ngettext("%(n)s more", "%(n)s more", group.more)
        said.append(words % {"n": group.more})
    return ", ".join(said)


def iso_date(text: str) -> str:
    return long_date(date.fromisoformat(text))


def sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def day_of(at: datetime, agreement: Agreement) -> str:
    """12 May 2027, on the wedding's clock."""
    return calendar_date(at.astimezone(ZoneInfo(agreement.wedding.zone)))


def state_line(standing: Standing) -> str:
    """How the summary stands, in one line, for Meeting, Papers and the day pack's cover."""
    said = [_agreed(standing)] if standing.confirmed else []
    if standing.waits:
        words = _("version %(number)s shared %(day)s, not confirmed yet")
        newest = standing.shared
        day = day_of(newest.shared_at, newest)
        said.append(words % {"number": newest.number, "day": day})
        count = 0 if standing.confirmed else len(standing.since_shared)
        if count:
            said.append(ngettext("%(n)s change since", "%(n)s changes since", count) % {"n": count})
    if standing.broken:
        said.append(_("but what is kept is not what was shared"))
    return sentence(", ".join(said) or _("nothing agreed in writing yet")) + "."


def pack_state(plan: Plan) -> str:
    """The line of a plan's own wedding; nothing where nothing was ever shared."""
    wedding = Wedding.objects.filter(public_id=plan.brief.wedding).first()
    if wedding is None or not wedding.agreements.exists():
        return ""
    return state_line(stands(wedding, plan))


def _agreed(standing: Standing) -> str:
    """Agreed 12 May 2027, 3 changes since."""
    agreement = standing.confirmed
    count = len(standing.since_confirmed)
    values = {"day": day_of(agreement.confirmed_at, agreement), "n": count}
    if agreement in standing.broken:
        return _("agreed %(day)s") % values
    if not count:
        return _("agreed %(day)s, nothing changed since") % values
    words = ngettext(
        "agreed %(day)s, %(n)s change since", "agreed %(day)s, %(n)s changes since", count
    )
    return words % values
