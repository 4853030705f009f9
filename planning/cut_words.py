"""What to cut in sentences: the plan for a block that ends late, for the phone and the day pack."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.templatetags.clock import block_title, clock

from .compute.late import STEP, Ending
from .compute.network import Block as Asked
from .compute.network import CutPlan
from .compute.planned import Day
from .day_words import OVER, in_hundred


@dataclass(frozen=True)
class Advice:
    """What to do when a block ends `late` minutes behind, at `ends`.

    `cuts` is empty where nothing need be cut; `keeps` is the time that is kept with `chance`.
    Where no cut reaches it `asking` says what is left; with `moved_to`, a time on the clock, it
    has a %(at)s for that, and cuts, time and chance are those for when it is granted.
    """

    late: int
    ends: datetime
    cuts: list[str]
    keeps: str
    chance: str
    asking: str = ""
    moved_to: str = ""

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
    return [advice(day, plan, ending.most) for plan in ending.plans]


def advice(day: Day, plan: CutPlan, most: CutPlan | None = None) -> Advice:
    """Where no cut reaches it, a later time is named if cutting as for `most` would reach that."""
    after = day.block(plan.after)
    ends = after.end if after else day.problem.hours.at(0)
    at = None if plan.reached else _moved(day, plan, most)
    chance = in_hundred(plan.chance)
    if at is not None:
        sure = most.chance >= OVER
        chance = in_hundred(most.chance)
        chance = chance if sure else _("at least %(chance)s") % {"chance": chance}
    return Advice(
        late=plan.late,
        ends=datetime.fromtimestamp(ends.timestamp() + 60 * plan.late, ends.tzinfo),
        cuts=list(cuts_said(day, plan if at is None else most)),
        keeps=keeps(day, plan, at),
        chance=chance,
        asking="" if plan.reached else _asking(day, plan, at is not None),
        moved_to="" if at is None else clock(day.problem.hours.at(at)),
    )


def _moved(day: Day, plan: CutPlan, most: CutPlan | None) -> int | None:
    """The minute that a fixed time would have to wait for, to the next five on the clock."""
    fixed = _asked(day, plan.keeps).fixed
    if most is None or fixed is None or most.keeps != plan.keeps or plan.otherwise == "miss":
        return None
    at = fixed + plan.late - most.late
    return at + -at % STEP


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
