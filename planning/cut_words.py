"""What to cut in sentences: the plan for a block that ends late, for the phone and the day pack."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.templatetags.clock import block_title, clock

from .compute.clock import later
from .compute.late import Ending
from .compute.network import Block as Asked
from .compute.network import CutPlan
from .compute.planned import Day
from .compute.wake import Wake
from .day_words import OVER, in_hundred


@dataclass(frozen=True)
class Advice:
    """What to do when a block ends `late` minutes behind, at `ends`.

    `cuts` is empty where nothing need be cut; `keeps` is the time that is kept with `chance`.
    Where no cut reaches it `asking` says what is left; with `moved_to`, a time on the clock, it
    has a %(at)s for that, and cuts, time and chance are those for when it is granted; `then` is
    what it does to the times after it.
    """

    late: int
    ends: datetime
    cuts: list[str]
    keeps: str
    chance: str
    asking: str = ""
    moved_to: str = ""
    then: tuple[str, ...] = ()
    next: str = ""  # what becomes of the first of these: "holds", "cuts", "waits" or "missed"

    @property
    def ask(self) -> str:
        return self.ask_for(self.moved_to)

    def ask_for(self, at: str) -> str:
        return self.asking % {"at": at} if self.moved_to else self.asking

    @property
    def by(self) -> str:
        return late_by(self.late)

    @property
    def hopeless(self) -> bool:
        """No cut even helps."""
        return bool(self.ask) and not self.cuts and not self.moved_to


def late_by(minutes: int) -> str:
    if not minutes:
        return _("In time")
    words = ngettext("%(n)s minute late", "%(n)s minutes late", minutes)
    return words % {"n": minutes}


def advice_for(day: Day, ending: Ending) -> list[Advice]:
    """One for each lateness of a block's end."""
    wakes = ending.wakes
    return [advice(day, plan, ending.most, wakes.get(plan.late)) for plan in ending.plans]


def advice(
    day: Day, plan: CutPlan, most: CutPlan | None = None, wake: Wake | None = None
) -> Advice:
    """Where no cut reaches it, a later time is named if cutting as for `most` would reach that."""
    after = day.block(plan.after)
    ends = after.end if after else day.problem.hours.at(0)
    at = wake.at if wake else None
    chance = in_hundred(plan.chance)
    if at is not None and most is not None:
        sure = most.chance >= OVER
        chance = in_hundred(most.chance)
        chance = chance if sure else _("at least %(chance)s") % {"chance": chance}
    return Advice(
        late=plan.late,
        ends=later(ends, plan.late),
        cuts=list(cuts_said(day, plan if at is None else most)),
        keeps=keeps(day, plan, at),
        chance=chance,
        asking="" if plan.reached else _asking(day, plan, at is not None),
        moved_to="" if at is None else clock(day.problem.hours.at(at)),
        then=tuple(_then(day, wake)),
        next=_next(wake),
    )


def _next(wake: Wake | None) -> str:
    if wake is None or wake.plan is None:
        return ""
    if wake.onward:
        return "waits"
    return ("cuts" if wake.plan.cuts else "holds") if wake.plan.reached else "missed"


def _then(day: Day, wake: Wake | None) -> Iterator[str]:
    """What a time that waits does to the next one, and that to the one after it."""
    while wake is not None and wake.plan is not None:
        plan, onward = wake.plan, wake.onward
        values = {
            "time": keeps(day, plan, onward.at if onward else None),
            "cuts": "; ".join(cuts_said(day, plan)),
            "chance": in_hundred(plan.chance),
        }
        if plan.reached and onward is None:
            words = _("%(time)s still holds: %(chance)s.")
            if plan.cuts:
                words = _("To keep %(time)s as well: %(cuts)s (%(chance)s).")
        elif onward is None:
            words = _("%(time)s is missed then.")
        else:
            words = _("Has to wait too: %(time)s (%(chance)s).")
            if plan.cuts:
                words = _("Has to wait too: %(time)s, with %(cuts)s (%(chance)s).")
        yield words % values
        wake = onward


def cuts_said(day: Day, plan: CutPlan) -> Iterable[str]:
    """Each cut, in the order of the day."""
    for cut in plan.cuts:
        values = {"block": title_of(day, cut.key), "n": cut.minutes}
        if cut.minutes is None:
            yield _("Leave out %(block)s") % values
        else:
            values["was"] = round(_asked(day, cut.key).law.likely)
            yield _("%(block)s in %(n)s minutes instead of %(was)s") % values


def keeps(day: Day, plan: CutPlan, at: int | None = None) -> str:
    """The time that is kept: a block's own, the one it waits for, or the end of its window."""
    asked, values = _asked(day, plan.keeps), {"block": title_of(day, plan.keeps)}
    if asked.fixed is None and asked.window:
        values["at"] = clock(day.problem.hours.at(asked.window[1]))
        return _("%(block)s done by %(at)s") % values
    values["at"] = clock(day.problem.hours.at(at or asked.fixed or 0))
    return _("%(block)s at %(at)s") % values


def _asking(day: Day, plan: CutPlan, moved: bool) -> str:
    """The honest end of it: who must be asked and for when, or what is missed."""
    words = {
        "move": _("No cut reaches it: ask to move “%(block)s”."),
        "ask": _("No cut reaches it, and others hold its time: ask if “%(block)s” can wait."),
        "miss": _("No cut reaches it: “%(block)s” will miss its time."),
    }
    until = {
        "move": _("No cut reaches it: ask to move “%(block)s” to %(at)s."),
        "ask": _(
            "No cut reaches it, and others hold its time: ask if “%(block)s” can wait until %(at)s."
        ),
    }
    title = title_of(day, plan.keeps)
    if not moved:
        return words[plan.otherwise or "move"] % {"block": title}
    return until[plan.otherwise or "move"] % {"block": title.replace("%", "%%"), "at": "%(at)s"}


def title_of(day: Day, key: str) -> str:
    """The title of a block, shown on the day or not."""
    shown = day.block(key)
    return block_title(shown) if shown else _(_asked(day, key).title)


def _asked(day: Day, key: str) -> Asked:
    return next(block for block in day.problem.blocks if block.key == key)
