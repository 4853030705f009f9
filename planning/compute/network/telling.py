"""An answer as JSON, and as plain lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from planning.compute.network.hours import Hours
from planning.compute.network.laws import Law
from planning.compute.network.sentences import in_one_sum, repair_said, statements
from planning.compute.network.simulate import CEILING
from planning.compute.network.values import (
    Answer,
    Conflict,
    Cut,
    CutPlan,
    Leaving,
    Planned,
    Problem,
    Promise,
    Repair,
)
from planning.compute.network.words import in_hundred, joined, quote


def as_json(problem: Problem, answer: Answer) -> dict[str, Any]:
    """As design.md section 5 has it. Beside that: `windows` (the chance that each window is
    kept), `tame` (which block to make sure of first), `leaving` (both rules), `faults` (what is
    no sum of minutes), and texts for people."""
    hours = problem.hours
    return {
        "verdict": answer.verdict,
        "blocks": [as_block(hours, one) for one in answer.planned],
        "stretches": [
            {"from": one.origin, "to": one.until, "slack_minutes": one.slack}
            for one in answer.stretches
        ],
        "conflicts": [as_conflict(problem, conflict) for conflict in answer.conflicts],
        "holds": answer.holds,
        "promises": [as_chance(promise) for promise in answer.promises],
        "windows": [as_chance(promise) for promise in answer.windows],
        "tame": [{"id": one.key, "promise": one.promise, "gain": one.gain} for one in answer.tame],
        "cuts": [as_cuts(problem, plan) for plan in answer.cuts],
        "leave_home": hours.shown(answer.leaving.at) if answer.leaving else None,
        "leaving": as_leaving(hours, answer.leaving) if answer.leaving else None,
        "faults": [{"code": one.code, "text": one.text, **one.values} for one in answer.faults],
    }


def as_block(hours: Hours, one: Planned) -> dict[str, Any]:
    clocks = {
        name: None if (at := getattr(one, name)) is None else hours.shown(at)
        for name in ("earliest", "latest", "start", "end")
    }
    exact = {
        f"{name}_at": None if (at := getattr(one, name)) is None else hours.at(at).isoformat()
        for name in ("start", "end")
    }
    return {"id": one.key, **clocks, **exact}


def as_leaving(hours: Hours, leaving: Leaving) -> dict[str, str]:
    return {
        "at": hours.at(leaving.at).isoformat(),
        "rule_of_a_third": hours.shown(leaving.rule),
        "simulated_95": hours.shown(leaving.simulated),
    }


def probability(chance: float) -> float:
    """Never more than the simulated days can say."""
    return round(min(chance, CEILING), 4)


def as_chance(promise: Promise) -> dict[str, Any]:
    return {
        "id": promise.key,
        "probability": probability(promise.chance),
        "text": in_hundred(promise.chance),
    }


def as_conflict(problem: Problem, conflict: Conflict) -> dict[str, Any]:
    return {
        "statements": list(statements(problem, conflict)),
        "short_by": conflict.short_by,
        "text": in_one_sum(problem, conflict),
        "repairs": [as_repair(problem, conflict, repair) for repair in conflict.repairs],
    }


def as_repair(problem: Problem, conflict: Conflict, repair: Repair) -> dict[str, Any]:
    change = {key: as_fields(problem.hours, value) for key, value in repair.change.items()}
    text = repair_said(problem, conflict, repair)
    return {"kind": repair.kind, "text": text, "change": change}


def as_fields(hours: Hours, fields: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a block as the file has them."""
    found: dict[str, Any] = {}
    for name, value in fields.items():
        if isinstance(value, Law):
            found["minutes"] = [value.least, value.likely, value.most]
        elif name == "fixed":
            found[name] = hours.shown(value)
        elif name == "window":
            found[name] = [hours.shown(one) for one in value]
        else:
            found[name] = value
    return found


def as_cuts(problem: Problem, plan: CutPlan) -> dict[str, Any]:
    names = {block.key: block.name for block in problem.blocks}
    return {
        "after": plan.after,
        "late": plan.late,
        "keeps": plan.keeps,
        "cuts": [{"id": c.key, "minutes": c.minutes, "text": as_text(c, names)} for c in plan.cuts],
        "probability": probability(plan.chance),
        "reached": plan.reached,
        "otherwise": plan.otherwise,
        "text": cut_text(plan, names),
    }


def as_text(cut: Cut, names: Mapping[str, str]) -> str:
    name = quote(names[cut.key])
    return f"leave out {name}" if cut.minutes is None else f"{name} in {cut.minutes} minutes"


def cut_text(plan: CutPlan, names: Mapping[str, str]) -> str:
    chance = in_hundred(plan.chance)
    keeps = quote(names[plan.keeps])
    cuts = joined([as_text(cut, names) for cut in plan.cuts])
    if not plan.reached:
        most = f"{cuts} gives {chance}" if cuts else f"the chance is {chance}"
        otherwise = {
            "move": f"ask to move {keeps}",
            "ask": f"only a move of {keeps} would do: ask whether it can",
            "miss": f"{keeps} misses its window",
        }
        return f"no cut reaches it: {otherwise[plan.otherwise or 'move']} ({most})"
    return f"{cuts or 'nothing to cut'}: {keeps} in time, {chance}"


def tell(problem: Problem, answer: Answer) -> str:
    return "\n".join(lines(problem, answer))


def lines(problem: Problem, answer: Answer) -> Iterator[str]:
    hours, names = problem.hours, {block.key: block.name for block in problem.blocks}
    yield answer.verdict
    if answer.leaving:
        yield f"{hours.shown(answer.leaving.at)}        leave home"
    placed = [one for one in answer.planned if one.start is not None]
    for one in sorted(placed, key=lambda one: one.start or 0):
        yield f"{hours.shown(one.start or 0)}-{hours.shown(one.end or 0)}  {names[one.key]}"
    for conflict in answer.conflicts:
        yield in_one_sum(problem, conflict)
        for repair in conflict.repairs:
            yield f"  - {repair_said(problem, conflict, repair)}"
    for one in answer.stretches:
        way = f"{quote(names[one.origin])} to {quote(names[one.until])}"
        yield f"{way}: {one.slack} minutes of slack in all"
    if answer.holds is not None:
        yield f"holds even if every block takes its {100 * answer.holds:.0f}-in-100 time"
    for kept in (*answer.promises, *answer.windows):
        yield f"{quote(names[kept.key])} in time: {in_hundred(kept.chance)}"
    for best in answer.tame:
        name, promise = quote(names[best.key]), quote(names[best.promise])
        points = f"{100 * best.gain:.1f} points"
        yield f"{name} in exactly its likely minutes: {points} more for {promise}"
    for plan in answer.cuts:
        yield f"{quote(names[plan.after])} {plan.late} late: {cut_text(plan, names)}"
    yield from (fault.text for fault in answer.faults)
