"""A conflict and its repairs in English."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from planning.compute.network.hours import Hours
from planning.compute.network.values import Block, Conflict, Post, Problem, Repair, Term
from planning.compute.network.words import joined, length, quote

Blocks = Mapping[str, Block]


def known(problem: Problem) -> Blocks:
    return {block.key: block for block in problem.blocks}


def statements(problem: Problem, conflict: Conflict) -> tuple[str, ...]:
    """What cannot all hold, in the order of the day; that a day has a beginning goes unsaid."""
    blocks, shown = known(problem), problem.hours.shown
    posts = {
        post_key(post): post_said(blocks, post, shown)
        for post in (conflict.first, conflict.last)
        if post.kind != "day"
    }
    between = [term_said(blocks, term) for term in conflict.terms]
    first = [posts.pop(post_key(conflict.first))] if conflict.first.kind != "day" else []
    return (*first, *between, *posts.values())


def post_key(post: Post) -> tuple[bool, str]:
    """Both ends of a window are one statement."""
    return post.kind == "fixed", post.key


def post_said(blocks: Blocks, post: Post, shown: Any) -> str:
    block = blocks[post.key]
    if post.kind == "fixed":
        return f"{quote(block.name)} is fixed at {shown(post.at)}"
    opens, closes = block.window or (0, 0)
    return f"{quote(block.name)} must lie between {shown(opens)} and {shown(closes)}"


def term_said(blocks: Blocks, term: Term) -> str:
    if term.leg is None:
        return f"{quote(blocks[term.key].name)} takes {length(term.minutes)}"
    return (
        f"the drive from {quote(term.leg.origin)} to {quote(term.leg.destination)} takes "
        f"{length(term.minutes)} ({term.leg.map_minutes} on the map and a third more)"
    )


def in_one_sum(problem: Problem, conflict: Conflict) -> str:
    """The two times, and the sum of what lies between."""
    blocks, shown = known(problem), problem.hours.shown
    first, last, terms = conflict.first, conflict.last, conflict.terms
    short = f"{length(conflict.short_by)} short"
    if not terms:
        return f"{begins(blocks, first, shown)}, but {must(blocks, last, shown)}: {short}"
    total = sum(term.minutes for term in terms)
    between = " + ".join(term_in_sum(blocks, term) for term in terms)
    between += f" = {length(total)}" if len(terms) > 1 else " minutes"
    return (
        f"{begins(blocks, first, shown)}; {between}, so until {shown(first.at + total)} "
        f"at the earliest; {must(blocks, last, shown)}: {short}"
    )


def term_in_sum(blocks: Blocks, term: Term) -> str:
    if term.leg is None:
        return f"{quote(blocks[term.key].name)} {term.minutes}"
    return f"drive to {quote(term.leg.destination)} {term.minutes}"


def begins(blocks: Blocks, post: Post, shown: Any) -> str:
    name, at = quote(blocks[post.key].name), shown(post.at)
    match post.kind:
        case "fixed":
            return f"{name} is fixed at {at}"
        case "opens":
            return f"{name} starts no earlier than {at}"
        case _:
            return f"the day begins at {at}"


def must(blocks: Blocks, post: Post, shown: Any) -> str:
    name, at = quote(blocks[post.key].name), shown(post.at)
    return f"{name} is fixed at {at}" if post.kind == "fixed" else f"{name} must end by {at}"


def repair_said(problem: Problem, conflict: Conflict, repair: Repair) -> str:
    """Several cuts are told in the order of the day."""
    blocks = known(problem)
    if repair.kind == "ask":
        ((key, fields),) = repair.change.items()
        name, move = quote(blocks[key].name), to_when(problem.hours, blocks[key], fields)
        return f"only a move of {name} {move} would do: ask whether it can"
    order = [term.key for term in conflict.terms if term.kind == "block"]
    keys = sorted(repair.change, key=[*order, conflict.last.key].index)
    return joined(
        [one for key in keys for one in change_said(problem.hours, blocks[key], repair.change[key])]
    )


def change_said(hours: Hours, block: Block, fields: Mapping[str, Any]) -> Iterator[str]:
    name = quote(block.name)
    if fields.get("drop"):
        yield f"leave out {name}"
    if "law" in fields:
        yield f"shorten {name} to {length(round(fields['law'].likely))}"
    if "fixed" in fields and block.fixed is not None:
        yield f"ask to move {name} {to_when(hours, block, fields)}"
    if "window" in fields and block.window is not None:
        opens, closes = fields["window"]
        end = closes != block.window[1]
        edge = f"end at {hours.shown(closes)}" if end else f"open at {hours.shown(opens)}"
        yield f"let the time of {name} {edge}"


def to_when(hours: Hours, block: Block, fields: Mapping[str, Any]) -> str:
    by = fields["fixed"] - (block.fixed or 0)
    how = f"{length(abs(by))} {'later' if by > 0 else 'earlier'}"
    return f"to {hours.shown(fields['fixed'])} ({how})"
