"""How a ready list is said: its lines, how it stands altogether, and until when."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.words import calendar_date, day_and_month, long_date

from .compute.due import day_starts
from .compute.planned import Finding
from .compute.ready_values import Entry, Item, Known, Ready
from .countries import country_name

SOON = timedelta(days=2)


def title_of(item: Item) -> str:
    """The studio's own lines stay in the studio's words."""
    return item.title if item.own else _insurance(item) if item.kind else _(item.title)


def _insurance(item: Item) -> str:
    return _("Insurance in force: %(kind)s") % {"kind": _(item.title)}


def known_words(known: Known | None) -> str:
    if known is None:
        return ""
    return _(known.message) % {name: _value(name, each) for name, each in known.values.items()}


def _value(name: str, value: Any) -> Any:
    if name == "country":
        return country_name(value)
    if isinstance(value, date):
        return calendar_date(value)
    return value


def date_words(entry: Entry) -> str:
    """With the year where it is not this one."""
    if entry.due is None:
        return ""
    this_year = entry.due.year == datetime.now(entry.due.tzinfo).year
    return day_and_month(entry.due) if this_year else long_date(entry.due)


def due_words(entry: Entry) -> str:
    """On the clock of the wedding, as the list counts it."""
    if entry.due is None:
        return ""
    values = {"date": date_words(entry), "time": f"{entry.due:%H:%M}"}
    return _("%(date)s, %(time)s") % values


def waits_words(entry: Entry) -> str:
    names = "; ".join(known_words(wait) for wait in entry.waits_for)
    return _("First: %(what)s.") % {"what": names} if names else ""


def summary(ready: Ready, now: datetime) -> str:
    """How ready a wedding is, in a sentence or two."""
    if not ready.brief.days:
        return _("There is no date yet: the list counts back from it.")
    if ready.over:
        return _over(ready)
    late, at_once = ready.marked("late"), ready.marked("now")
    near = _is_near(ready, now)
    if late or at_once:
        return _pressing(len(late), len(at_once), near)
    soon = ready.marked("today", "week")
    if soon:
        return _soon(soon)
    return _nothing_due(ready)


def _over(ready: Ready) -> str:
    left = ready.open
    if not left:
        return _("The wedding is over, and nothing is left to do for it.")
    text = ngettext(
        "The wedding is over. One thing is left: %(what)s.",
        "The wedding is over. %(count)s things are left; first: %(what)s.",
        len(left),
    )
    return text % {"count": len(left), "what": title_of(left[0].item)}


def _is_near(ready: Ready, now: datetime) -> bool:
    return day_starts(ready.brief.days[0], ready.brief.zone) - now < SOON


def _pressing(late: int, at_once: int, near: bool) -> str:
    if near:
        text = ngettext(
            "The wedding is near, and one thing is open. If it is done already, tick it off.",
            "The wedding is near, and %(count)s things are open. Tick off what is done already, "
            "then take the rest from the top: they stand in the order to do them in.",
            late + at_once,
        )
        return text % {"count": late + at_once}
    if not late:
        text = ngettext(
            "Booked at short notice: one thing would usually have been done by now. Nothing is "
            "late; take it first.",
            "Booked at short notice: %(count)s things would usually have been done by now. "
            "Nothing is late; take them from the top.",
            at_once,
        )
        return text % {"count": at_once}
    text = ngettext(
        "One thing is late, the rest has time.",
        "%(count)s things are late, the rest has time.",
        late,
    )
    return text % {"count": late}


def _soon(soon: tuple[Entry, ...]) -> str:
    text = ngettext(
        "Nothing is late. One thing is due within a week: %(what)s.",
        "Nothing is late. %(count)s things are due within a week; first: %(what)s.",
        len(soon),
    )
    return text % {"count": len(soon), "what": title_of(soon[0].item)}


def _nothing_due(ready: Ready) -> str:
    left = ready.open
    if not left:
        return _("Ready: everything on the list is done.")
    if all(entry.item.due.when in {"night", "after"} for entry in left):
        return _("Ready for the day. Afterwards only the copies are left.")
    first = left[0]
    return _("Nothing is due yet. First, by %(date)s: %(what)s.") % {
        "date": calendar_date(first.due),
        "what": title_of(first.item),
    }


def finding_words(finding: Finding) -> str:
    """A finding as one sentence, with countries by their names and dates without their weekday."""
    values = {name: _value(name, each) for name, each in finding.values.items()}
    values |= {"kind": _(values["kind"])} if "kind" in values else {}
    return _(finding.message) % values


def finding_values(values: Mapping[str, Any]) -> dict[str, Any]:
    """A finding's values with countries by name; dates are left to the `said` filter."""
    return {n: country_name(v) if n == "country" else v for n, v in values.items()}
