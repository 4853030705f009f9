"""What the app knows of the ready list by itself, so that nobody ticks what it can see."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from .clock import in_figures, later
from .cover import cover
from .ready_values import Item, Known, ReadyBrief
from .values import N_


def applies(item: Item, brief: ReadyBrief) -> bool:
    """Whether an item belongs on this wedding's list at all."""
    if item.only == "groups":
        return brief.groups > 0
    if item.only == "second":
        return brief.second
    if item.only == "abroad":
        return is_abroad(brief)
    if item.kind == "travel":
        return item.kind in brief.kinds and is_abroad(brief)
    return item.only != "insurance" or item.kind in brief.kinds


def is_abroad(brief: ReadyBrief) -> bool:
    """In another country than the studio's, as far as both are known."""
    return bool(brief.home_country and brief.countries - {brief.home_country})


def known_of(
    item: Item, brief: ReadyBrief, now: datetime, due: datetime | None = None
) -> Known | None:
    """What is known `now` of an item that is due then; None where only people can say."""
    if item.kind:
        return cover(brief.policies, item.kind, (d.date for d in brief.days), brief.countries)
    if item.key == "batteries":
        return _batteries(brief, now, due)
    return KNOWN[item.key](brief) if item.key in KNOWN else None


def _batteries(brief: ReadyBrief, now: datetime, due: datetime | None) -> Known | None:
    if not brief.charging_hours or due is None:
        return None
    values = {"hours": f"{brief.charging_hours:g}"}
    begin = later(due, -60 * brief.charging_hours)
    if begin <= now:
        return Known(False, N_("They take about %(hours)s h in your chargers: begin now."), values)
    values["time"] = in_figures(begin)
    return Known(
        False, N_("They take about %(hours)s h in your chargers: begin by %(time)s."), values
    )


def _bag(brief: ReadyBrief) -> Known | None:
    """What is packed for the first day stays packed: after it people look again."""
    if not brief.goes or not brief.packed:
        return None
    values = {"packed": brief.packed, "goes": brief.goes}
    if brief.packed == brief.goes and len(brief.days) == 1:
        return Known(True, N_("All %(goes)s things of the bag are packed."), values)
    return Known(False, N_("%(packed)s of %(goes)s things of the bag are packed."), values)


def _sent(brief: ReadyBrief) -> Known:
    if brief.begun or brief.sent_at:
        return Known(True, N_("They have opened it and begun."))
    return Known(False, N_("Nobody has kept an answer yet."))


def _answered(brief: ReadyBrief) -> Known:
    if not brief.sent_at:
        return Known(False, N_("They have begun.") if brief.begun else N_("They have not begun."))
    if brief.missing == 1:
        return Known(False, N_("Sent on %(date)s, one thing is missing."), _on(brief.sent_at))
    if brief.missing:
        values = _on(brief.sent_at) | {"count": brief.missing}
        return Known(False, N_("Sent on %(date)s, %(count)s things are missing."), values)
    return Known(True, N_("Sent on %(date)s, nothing is missing."), _on(brief.sent_at))


def _meeting(brief: ReadyBrief) -> Known:
    """Held is what left a trace: a date that went by may have been put off."""
    if brief.met:
        return Known(True, N_("Its notes or its summary are kept."))
    if brief.meeting_at is None:
        return Known(False, N_("None is arranged."))
    return Known(False, N_("Arranged for %(date)s."), _on(brief.meeting_at))


def _groups(brief: ReadyBrief) -> Known:
    if brief.agreed_at:
        return Known(
            True, N_("The couple confirmed the summary on %(date)s."), _on(brief.agreed_at)
        )
    if brief.shared:
        return Known(False, N_("The summary is shared and waits to be confirmed."))
    return Known(False, N_("No summary is shared yet."))


CONSENT = {
    "yes": N_("They allow photographs to be shown online."),
    "ask": N_("They want to be asked before photographs are shown online."),
    "no": N_("They want no photographs shown online."),
}


def _consent(brief: ReadyBrief) -> Known | None:
    if not brief.sharing_asked:
        return None
    if brief.online in CONSENT:
        return Known(True, CONSENT[brief.online])
    return Known(False, N_("They have not decided who may see the photographs: show none."))


def _visit(brief: ReadyBrief) -> Known:
    if brief.visit_at is None:
        return Known(False, N_("None is arranged."))
    return Known(False, N_("Arranged for %(date)s."), _on(brief.visit_at))


def _coordinator(brief: ReadyBrief) -> Known:
    if not brief.coordinators:
        return Known(False, N_("Nobody in charge is named yet."))
    return Known(False, N_("In charge: %(names)s."), {"names": ", ".join(brief.coordinators)})


def _helpers(brief: ReadyBrief) -> Known:
    if not brief.helpers:
        return Known(False, N_("No helper is named yet."))
    return Known(False, N_("Helpers: %(names)s."), {"names": ", ".join(brief.helpers)})


def _on(at: object) -> dict[str, object]:
    return {"date": at}


KNOWN: dict[str, Callable[[ReadyBrief], Known | None]] = {
    "sent": _sent,
    "answered": _answered,
    "meeting": _meeting,
    "groups": _groups,
    "consent": _consent,
    "visit": _visit,
    "coordinator": _coordinator,
    "helpers": _helpers,
    "bag": _bag,
}
