"""What has changed between two summaries, one sentence for each thing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.models import MomentKind

from .agreed_words import iso_date, sentence, span
from .compute.agreed_changes import Change, about_people
from .expect_words import sure_words

LABELS = {
    "names": gettext_lazy("names"),
    "day": gettext_lazy("a day"),
    "date": gettext_lazy("date"),
    "day_title": gettext_lazy("what happens that day"),
    "hours": gettext_lazy("booked hours"),
    "place": gettext_lazy("place"),
    "address": gettext_lazy("address"),
    "wet_plan": gettext_lazy("if it rains"),
    "not_allowed": gettext_lazy("not allowed"),
    "time_title": gettext_lazy("name"),
    "time_place": gettext_lazy("place"),
    "sure": gettext_lazy("in time"),
    "group_title": gettext_lazy("name"),
    "group_minutes": gettext_lazy("length"),
    "wish": gettext_lazy("a photograph you want"),
    "wish_kind": gettext_lazy("when"),
    "cannot": gettext_lazy("what nobody can promise"),
    "note": gettext_lazy("note"),
}
# These say by themselves what they are about.
ALONE = {"place"}


def changed(change: Change) -> str:
    """One change in one sentence."""
    name = _(change.name) if change.name else ""
    if change.what in SAID:
        return sentence(SAID[change.what](change, name))
    label = str(LABELS[change.what])
    if name and change.what not in ALONE:
        label = _("%(name)s, %(what)s") % {"name": name, "what": label}
    in_words = VALUES.get(change.what, str)
    pair = (in_words(each) if each else "" for each in (change.was, change.now))
    return sentence(_from_to(label, *pair))


def _from_to(label: str, was: str, now: str) -> str:
    """A pair in words; where one is empty it is new, or gone."""
    values = {"what": label, "was": was, "now": now}
    if not was:
        return _("%(what)s: now %(now)s") % values
    if not now:
        return _("%(what)s: no longer %(was)s") % values
    return _("%(what)s: %(now)s (before: %(was)s)") % values


def _time(change: Change, name: str) -> str:
    if change.was is None:
        return _("New in the day: %(what)s, %(at)s") % {"what": name, "at": span(change.now)}
    if change.now is None:
        return _("No longer in the day: %(what)s, %(at)s") % {"what": name, "at": span(change.was)}
    return _from_to(name, span(change.was), span(change.now))


def _group(change: Change, name: str) -> str:
    if change.was is None:
        return _("New group: %(group)s") % {"group": name}
    return _("No longer among the groups: %(group)s") % {"group": name}


def _group_people(change: Change, name: str) -> str:
    came, left = about_people(change)
    said = []
    if came:
        said.append(_("now with %(people)s") % {"people": ", ".join(came)})
    if left:
        said.append(_("now without %(people)s") % {"people": ", ".join(left)})
    (_names, was, all_was), (_names, now, all_now) = change.was, change.now
    if (was, all_was) != (now, all_now):
        said.append(_("%(now)s people more, was %(was)s") % {"now": now, "was": was})
    return _("%(group)s: %(said)s") % {"group": name, "said": "; ".join(said)}


def _must(change: Change, name: str) -> str:
    if change.now:
        return _("%(group)s: now a must have") % {"group": name}
    return _("%(group)s: now only if there is time") % {"group": name}


def _order(change: Change, name: str) -> str:
    return _("The groups come in another order: %(now)s") % {"now": ", ".join(change.now)}


def _holds(change: Change, name: str) -> str:
    words = {
        "holds": _("The day fits now"),
        "short": _("The day does not fit as it stands: its times are to be settled again"),
        "unknown": _("A drive is not timed, so no time can be promised"),
    }.get(change.now, _("The day has no times any more"))
    return f"{name}: {words}" if name else words


def _hours(pair: tuple[str, str]) -> str:
    return "–".join(each or "?" for each in pair) if any(pair) else ""


SAID: dict[str, Callable[[Change, str], str]] = {
    "time": _time,
    "group": _group,
    "group_people": _group_people,
    "group_must": _must,
    "order": _order,
    "holds": _holds,
    "sure": lambda change, name: _from_to(
        _("%(name)s, in time") % {"name": name}, sure_words(change.was), sure_words(change.now)
    ),
}
VALUES: dict[str, Callable[[Any], str]] = {
    "names": " & ".join,
    "day": iso_date,
    "date": iso_date,
    "hours": _hours,
    "time_title": _,
    "group_minutes": lambda minutes: _("%(n)s min") % {"n": number_format(f"{minutes:g}")},
    "wish_kind": lambda kind: str(dict(MomentKind.choices).get(kind, kind)),
}
