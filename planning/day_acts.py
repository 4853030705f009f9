"""What the photographer can do to a day: each act one function, one sentence."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.forms import BaseForm
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _

from intake.models import Day as WeddingDay
from intake.models import Moment, Wedding, new_key
from studio.in_turn import in_turn
from studio.templatetags.clock import block_title, clock

from .brief import load_brief
from .change_text import PART, fields_of, time_of
from .compute.day import plan_wedding
from .compute.network import suggest
from .compute.planned import Day
from .day_form import BlockForm, DayForm, OwnBlockForm
from .day_words import changes, offers
from .models import BlockDecision, DayDecision

MOST_BLOCKS = 60  # of a day; more is a mistake
HOLDS = {"fits", "risky"}


class ActError(Exception):
    """What was asked cannot be done; the message says why. `form` holds what was typed."""

    def __init__(self, message: str, form: BaseForm | None = None) -> None:
        super().__init__(message)
        self.form = form


@in_turn()
def act(wedding: Wedding, data: QueryDict) -> str:
    """Do what the pressed button says ("out:KEY") and tell what it did to the day."""
    verb, _colon, rest = data.get("do", "").partition(":")
    day = wedding.days.filter(key=data.get("day", "")).first()
    if day is None or verb not in ACTS:
        raise ActError(_("Nothing was changed."))
    before = planned_day(wedding, day)
    words = ACTS[verb](Asked(wedding, day, before, data), rest)
    after = planned_day(wedding, day)
    _keep_what_held(day, before, after)
    return " ".join([words, *changes(before, after)])


class Asked:
    """One act: which day of whose wedding, as it is planned now, and what was typed."""

    def __init__(self, wedding: Wedding, day: WeddingDay, planned: Day, data: QueryDict) -> None:
        self.wedding, self.day, self.planned, self.data = wedding, day, planned, data

    def title(self, key: str) -> str:
        second = self.planned.second
        block = self.planned.block(key) or (second and second.block(key))
        if block is not None:
            return block_title(block)
        return next((_(title) for gone, title in self.planned.gone if gone == key), _("It"))

    def decision(self, key: str) -> BlockDecision:
        """What is settled about a block; a new one knows what the couple said then."""
        found = self.day.block_decisions.filter(key=key).first()
        return found or BlockDecision(day=self.day, key=key)

    def known(self, key: str) -> str:
        planned = {block.key for block in self.planned.blocks}
        asked = {block.key for block in self.planned.problem.blocks} if self.planned.problem else ()
        gone = {key for key, _title in self.planned.gone}
        others = {b.key for b in self.planned.second.blocks} if self.planned.second else set()
        if key not in planned | set(asked) | gone | others:
            raise ActError(_("That block is no longer in the day."))
        return key


def planned_day(wedding: Wedding, day: WeddingDay) -> Day:
    return next(d for d in plan_wedding(load_brief(wedding)).days if d.brief.key == day.key)


def _keep_what_held(day: WeddingDay, before: Day, after: Day) -> None:
    """The timeline as it last fitted, for a day that no longer does."""
    held = next((each for each in (after, before) if each.verdict in HOLDS), None)
    if held is not None:
        rows = [[clock(b.start), clock(b.end), block_title(b)] for b in held.blocks]
        values = {"held": rows, "held_at": timezone.now()}
        DayDecision.objects.update_or_create(day=day, defaults=values)


def keep(asked: Asked, key: str) -> str:
    decision = asked.decision(asked.known(key))
    form = block_form(asked.wedding, asked.planned, key, asked.data, decision)
    if not form.is_valid():
        raise ActError(_("Nothing was changed. Look at the boxes that are marked."), form)
    _settled_against(asked, decision)
    decision.suggested = decision.suggested and "wished" not in form.changed_data
    form.save()
    return _("Kept: %(block)s.") % {"block": decision.title or asked.title(key)}


def block_form(
    wedding: Wedding,
    planned: Day,
    key: str,
    data: QueryDict | None = None,
    decision: BlockDecision | None = None,
) -> BlockForm:
    problems = [each.problem for each in (planned.second, planned) if each and each.problem]
    blocks = {block.key: block for problem in problems for block in problem.blocks}
    return BlockForm(
        data,
        wedding=wedding,
        asked=blocks.get(key),
        instance=decision,
        auto_id=f"{key}-%s",
    )


def _settled_against(asked: Asked, decision: BlockDecision) -> None:
    """What the couple said when it was settled, so that a later change of theirs is noticed."""
    moment = Moment.objects.filter(wedding=asked.wedding, key=decision.key).first()
    decision.said = moment.at if moment else None


def _decide(asked: Asked, key: str, **values: Any) -> None:
    decision = asked.decision(asked.known(key))
    for name, value in values.items():
        setattr(decision, name, value)
    _settled_against(asked, decision)
    decision.save()


def leave_out(asked: Asked, key: str) -> str:
    words = _("“%(block)s” is left out.") % {"block": asked.title(key)}
    _decide(asked, key, left_out=True)
    return words


def put_back(asked: Asked, key: str) -> str:
    _decide(asked, key, left_out=False)
    return _("“%(block)s” is back in the day.") % {"block": asked.title(key)}


def as_usual(asked: Asked, key: str) -> str:
    """What is settled about a block is taken back; an own block goes."""
    if not asked.day.block_decisions.filter(key=key).exists():
        raise ActError(_("That block is as usual already."))
    words = _("“%(block)s” is as usual again.") % {"block": asked.title(key)}
    if asked.decision(key).kind:
        words = _("“%(block)s” is gone.") % {"block": asked.title(key)}
    asked.day.block_decisions.filter(key=key).delete()
    return words


def _move(asked: Asked, key: str, to: Callable[[int], int]) -> str:
    keys = [b.key for b in asked.planned.blocks if b.kind != "travel"]
    if key not in keys:
        raise ActError(_("That block is no longer in the day."))
    place = max(0, min(to(keys.index(key)), len(keys) - 1))
    others = [each for each in keys if each != key]
    order = [*others[:place], key, *others[place:]]
    DayDecision.objects.update_or_create(day=asked.day, defaults={"order": order})
    values = {"block": asked.title(key), "before": "", "after": ""}
    now = planned_day(asked.wedding, asked.day)
    after = [b.key for b in now.blocks if b.kind != "travel"]
    if after == keys:
        return _("“%(block)s” stays where it is: a fixed time holds it there.") % values
    before = after.index(key) - 1 if key in after else -1
    if before < 0:
        return _("“%(block)s” is now first.") % values
    values["before"] = block_title(now.block(after[before]))
    return _("“%(block)s” now follows “%(before)s”.") % values


def earlier(asked: Asked, key: str) -> str:
    return _move(asked, key, lambda place: place - 1)


def later(asked: Asked, key: str) -> str:
    return _move(asked, key, lambda place: place + 1)


def move_to(asked: Asked, rest: str) -> str:
    key, _colon, place = rest.rpartition(":")
    if not (place.isascii() and place.isdigit() and len(place) < 6):
        raise ActError(_("Nothing was changed."))
    return _move(asked, key, lambda _now: int(place) - 1)


def usual_order(asked: Asked, rest: str) -> str:
    DayDecision.objects.filter(day=asked.day).update(order=[])
    return _("The blocks are in their usual order again.")


def add(asked: Asked, rest: str) -> str:
    form = own_form(asked.planned, asked.data)
    if not form.is_valid():
        raise ActError(_("Nothing was changed. Look at the boxes that are marked."), form)
    if len(asked.planned.blocks) >= MOST_BLOCKS:
        words = _("A day has room for %(most)s blocks. Leave one out first.")
        raise ActError(words % {"most": MOST_BLOCKS}, form)
    data = form.cleaned_data
    decision = BlockDecision(day=asked.day, key=f"own-{new_key()}", kind=data["kind"])
    decision.title = data["title"] or dict(form.fields["kind"].choices)[data["kind"]]
    decision.least = decision.likely = decision.most = data["likely"]
    decision.follows = data["follows"]
    decision.save()
    return _("“%(block)s” is in the day.") % {"block": decision.title}


def own_form(planned: Day, data: QueryDict | None = None) -> OwnBlockForm:
    blocks = [b for b in planned.blocks if b.kind != "travel"]
    after = [(b.key, f"{clock(b.start)} {block_title(b)}") for b in blocks]
    return OwnBlockForm(data, after=after, auto_id=f"{planned.brief.key}-add-%s")


def mend(asked: Asked, rest: str) -> str:
    """A repair, as it was offered."""
    known = {
        offer.value for gap in asked.planned.shortfalls for offer in offers(asked.planned, gap)
    }
    if rest not in known:
        raise ActError(_("The day has changed since that was offered. Nothing was changed."))
    parts = [PART.fullmatch(part) for part in rest.split(";")[:MOST_BLOCKS]]
    if not parts or None in parts or asked.planned.problem is None:
        raise ActError(_("Nothing was changed."))
    told = []
    for part in parts:
        key, change = part[1], part[2]
        told.append(asked.title(key))
        _decide(asked, key, **fields_of(change, asked.planned.problem.hours))
    return _("Changed: %(blocks)s.") % {"blocks": ", ".join(dict.fromkeys(told))}


def suggest_times(asked: Asked, rest: str) -> str:
    """Where the blocks would be best, by the simulated days; kept until they are changed."""
    if asked.planned.problem is None or asked.planned.verdict not in HOLDS:
        raise ActError(_("Only a day that fits can be given better times. Mend it first."))
    problem = asked.planned.problem
    own = asked.day.block_decisions.filter(wished__isnull=False, suggested=False)
    kept = set(own.values_list("key", flat=True))
    for key, minute in suggest(problem, kept).items():
        block = next(b for b in problem.blocks if b.key == key)
        if block.fixed is None and key not in kept and asked.planned.block(key):
            _decide(asked, key, wished=time_of(problem.hours, minute), suggested=True)
    return _("Times suggested from simulated days, and kept until you change them.")


def let_go(asked: Asked, rest: str) -> str:
    """What was suggested goes; times that were typed stay."""
    for decision in asked.day.block_decisions.filter(suggested=True):
        decision.wished, decision.suggested = None, False
        if decision.says_something:
            decision.save()
        else:
            decision.delete()
    return _("The suggested times are free again.")


def settings(asked: Asked, rest: str) -> str:
    decision = DayDecision.objects.filter(day=asked.day).first() or DayDecision(day=asked.day)
    form = DayForm(asked.data, instance=decision, auto_id=f"{asked.day.key}-%s")
    if not form.is_valid():
        raise ActError(_("Nothing was changed. Look at the boxes that are marked."), form)
    form.save()
    return _("Kept.")


ACTS: dict[str, Callable[[Asked, str], str]] = {
    "keep": keep,
    "out": leave_out,
    "back": put_back,
    "usual": as_usual,
    "up": earlier,
    "down": later,
    "to": move_to,
    "usual-order": usual_order,
    "add": add,
    "mend": mend,
    "suggest": suggest_times,
    "let-go": let_go,
    "settings": settings,
}
