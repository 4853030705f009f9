"""A planned day in sentences: the verdict, the sums of what does not fit, the chances."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from studio.templatetags.clock import block_title, clock

from .compute.mending import Mending, mendings
from .compute.network import Repair
from .compute.planned import Block, Day, Shortfall, Tame

OVER = 0.995
WORTH_SAYING = 0.02  # of a chance; our own choice


@dataclass(frozen=True)
class Offer:
    """A repair as a button: what it says, what it posts, and what it would be worth."""

    label: str
    value: str
    worth: str = ""


def in_hundred(chance: float) -> str:
    """A chance for people; never told as certain, whatever the simulated days say."""
    if chance >= OVER:
        return _("over 99 in 100")
    if chance < 1 - OVER:
        return _("under 1 in 100")
    return _("%(count)s in 100") % {"count": int(100 * chance + 0.5)}


def verdict(day: Day) -> str:
    """One sentence: whether the day holds."""
    short = sum(gap.short_minutes for gap in day.shortfalls)
    if day.verdict == "impossible":
        words = ngettext(
            "Does not fit, %(n)s minute short, and would not if everything took its least.",
            "Does not fit, %(n)s minutes short, and would not if everything took its least.",
            short,
        )
        return words % {"n": short}
    if day.verdict == "does not fit":
        words = ngettext(
            "Does not fit, %(n)s minute short.", "Does not fit, %(n)s minutes short.", short
        )
        return words % {"n": short}
    wanted = {"n": round(100 * day.brief.wanted)}
    if day.verdict == "risky":
        words = _("Fits, but risky: not every fixed time holds on %(n)s of 100 days.")
        return words % wanted
    if day.verdict == "unknown":
        return _("Nothing can be promised yet: nobody has timed every drive.")
    if day.verdict == "fits" and not day.promises:
        return _("Fits. No time is fixed, so nothing can be late.")
    return _("Fits. Every fixed time holds on at least %(n)s of 100 days.") % wanted


def wet_verdict(day: Day) -> str:
    return _("In rain: %(verdict)s") % {"verdict": verdict(day.wet)} if day.wet else ""


def risks(day: Day) -> list[str]:
    """What is less sure than wanted, the least sure first."""
    weak = [kept for kept in day.promises if kept.chance < day.brief.wanted]
    return [
        _("%(block)s at %(at)s: %(chance)s")
        % {
            "block": block_title(kept.block),
            "at": clock(kept.block.start),
            "chance": in_hundred(kept.chance),
        }
        for kept in sorted(weak, key=lambda kept: kept.chance)
    ]


def spare(day: Day) -> str:
    """How much longer everything may take; nothing where that says little."""
    share = day.answer.holds if day.answer else None
    if share is None or share < 0.5:
        return ""
    words = _(
        "If all begins in time, it holds even if everything lasts as on all but %(n)s of 100 days."
    )
    return words % {"n": 100 - round(100 * share)}


def tamed(day: Day, tames: tuple[Tame, ...]) -> list[str]:
    """Which blocks to make sure of first, and what it is worth."""
    chances = {kept.block.key: kept.chance for kept in day.promises}
    return [
        _("If %(block)s takes just its %(n)s minutes, %(promise)s is kept on %(then)s days.")
        % {
            "block": block_title(one.block),
            "n": one.block.minutes,
            "promise": block_title(one.promise),
            "then": in_hundred(min(1.0, chances[one.promise.key] + one.gain)),
        }
        for one in tames
        if one.gain >= WORTH_SAYING
    ]


def sum_of(gap: Shortfall) -> str:
    """Two times and one sum, so that anybody can check it."""
    terms = [f"{block_title(block)} {block.minutes}" for block in gap.between]
    if gap.drives:
        terms.append(_("drives %(n)s") % {"n": gap.drives})
    total = sum(block.minutes for block in gap.between) + gap.drives
    first = _held(gap.after, gap.holds[0], gap.starts)
    last = _held(gap.before, gap.holds[1], gap.until)
    if not terms:
        words = _("%(first)s, but %(last)s: %(n)s minutes short.")
        return words % {"first": first, "last": last, "n": gap.short_minutes}
    values = {"first": first, "last": last, "terms": ", ".join(terms), "total": total}
    return _("%(first)s. %(terms)s make %(total)s minutes; %(last)s: %(n)s minutes short.") % (
        values | {"n": gap.short_minutes}
    )


def _held(block: Block | None, how: str, at: datetime) -> str:
    values = {"block": block_title(block) if block else "", "at": clock(at)}
    says = {
        "fixed": _("%(block)s is at %(at)s"),
        "opens": _("%(block)s begins no earlier than %(at)s"),
        "closes": _("%(block)s must be over by %(at)s"),
    }
    return (says[how] if block and how in says else _("the day begins at %(at)s")) % values


def offers(day: Day, gap: Shortfall) -> list[Offer]:
    return [
        Offer(_label(day, each.repair), value_of(each.repair), _worth(day, each))
        for each in mendings(day, gap)
    ]


def _worth(day: Day, mending: Mending) -> str:
    kept = mending.weakest
    if kept is None:
        return ""
    block = next(b for b in day.problem.blocks if b.key == kept.key)
    shown = day.block(kept.key)
    title = block_title(shown) if shown else _(block.title)
    words = _("then %(block)s holds on %(chance)s days")
    if kept.chance >= day.brief.wanted:
        words = _("then every fixed time holds on at least %(chance)s days")
    return words % {"block": title, "chance": in_hundred(kept.chance)}


def _label(day: Day, repair: Repair) -> str:
    return " + ".join(_parts(day, repair))


def _parts(day: Day, repair: Repair) -> Iterator[str]:
    blocks = {block.key: block for block in day.problem.blocks} if day.problem else {}
    titles = {block.key: block_title(block) for block in day.blocks}
    for key, fields in repair.change.items():
        planned = blocks[key]
        values: dict[str, Any] = {"block": titles.get(key) or _(planned.title)}
        if fields.get("drop"):
            yield _("Leave out %(block)s") % values
        if "law" in fields:
            values |= {"n": round(fields["law"].likely), "was": round(planned.law.likely)}
            yield _("%(block)s %(n)s instead of %(was)s minutes") % values
        if "fixed" in fields:
            values["at"] = clock(day.problem.hours.at(fields["fixed"]))
            if repair.kind == "ask":
                yield _("Only if they can: %(block)s at %(at)s") % values
            else:
                yield _("Ask for %(block)s at %(at)s") % values
        if "window" in fields:
            first, last = (clock(day.problem.hours.at(at)) for at in fields["window"])
            values |= {"first": first, "last": last}
            yield _("%(block)s from %(first)s to %(last)s") % values


def value_of(repair: Repair) -> str:
    return ";".join(
        f"{key}:{part}" for key, fields in repair.change.items() for part in _changes(fields)
    )


def _changes(fields: Mapping[str, Any]) -> Iterator[str]:
    if fields.get("drop"):
        yield "out"
    if law := fields.get("law"):
        yield f"takes:{law.least:.0f}-{law.likely:.0f}-{law.most:.0f}"
    if "fixed" in fields:
        yield f"at:{fields['fixed']}"
    if "window" in fields:
        yield "within:{}-{}".format(*fields["window"])


def changes(before: Day, after: Day, most: int = 4) -> list[str]:
    """What an act did to the day: the verdict, what moved, and the chances."""
    told = [verdict(after)] if verdict(before) != verdict(after) else []
    old = {block.key: block for block in before.blocks}
    told += _came_and_went(before, after)
    moved = [
        _("%(block)s %(at)s (was %(was)s)")
        % {"block": block_title(b), "at": clock(b.start), "was": clock(old[b.key].start)}
        for b in after.blocks
        if b.key in old and b.kind != "travel" and old[b.key].start != b.start
    ]
    if moved:
        more = [_("and %(n)s more") % {"n": len(moved) - most}] if len(moved) > most else []
        told.append(_("Moved: %(moved)s.") % {"moved": ", ".join(moved[:most] + more)})
    chances = {kept.block.key: kept.chance for kept in before.promises}
    told += [
        _("%(block)s: %(chance)s (was %(was)s).")
        % {
            "block": block_title(kept.block),
            "chance": in_hundred(kept.chance),
            "was": in_hundred(chances[kept.block.key]),
        }
        for kept in after.promises
        if kept.block.key in chances
        and in_hundred(chances[kept.block.key]) != in_hundred(kept.chance)
    ][:most]
    if before.leave_home and after.leave_home and before.leave_home != after.leave_home:
        told.append(_("Leave home %(at)s.") % {"at": clock(after.leave_home)})
    return told


def _came_and_went(before: Day, after: Day) -> Iterator[str]:
    """Blocks for which there is no room any more, and those that have some again."""
    old, new = (
        {b.key: block_title(b) for b in day.blocks if b.kind != "travel"} for day in (before, after)
    )
    gone = [title for key, title in old.items() if key not in new and not key.endswith("-on")]
    come = [title for key, title in new.items() if key not in old and not key.endswith("-on")]
    if gone:
        yield _("No longer in the day: %(blocks)s.") % {"blocks": ", ".join(gone)}
    if come:
        yield _("In the day now: %(blocks)s.") % {"blocks": ", ".join(come)}


def spoken_slack(day: Day) -> dict[str, str]:
    """The slack before each fixed time, by the key of its block."""
    words = _("%(n)s minutes to spare since %(block)s, shared by all between")
    return {
        slack.before.key: words % {"n": slack.minutes, "block": block_title(slack.after)}
        for slack in day.slack
        if slack.minutes >= 0
    }
