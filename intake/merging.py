"""Two people answer one question: what each has changed since the page was made, field by field.

A page carries a mark for every answer that it showed. With it, three values are known at Keep:
what was shown, what is stored now, and what was typed. Whoever changed nothing gives way; only
where both changed the same answer is there a clash, and that is for people to settle.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Any

from django import forms
from django.db.models import Model


@dataclass(frozen=True)
class Clash:
    """An answer that both changed. `theirs` is what is stored, in words; `now` is its mark."""

    name: str  # of the radio buttons
    theirs: str
    now: str
    can_join: bool = False
    is_row: bool = False  # not one answer: a whole row that is to be removed


def plain(value: Any) -> Any:
    """A value as it is before and after a trip through a browser."""
    if isinstance(value, str):
        return "\n".join(value.splitlines()).strip()
    if isinstance(value, Model):
        return value.pk
    return "" if value is None else value


def mark(value: Any) -> str:
    # Sorted: PostgreSQL's jsonb gives an object's keys back in an order of its own.
    text = json.dumps(plain(value), default=str, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def write_marks(marks: dict[str, str]) -> str:
    return "--".join(f"{name}-{value}" for name, value in marks.items())


def read_marks(text: str) -> dict[str, str]:
    pairs = (each.split("-") for each in text.split("--"))
    return {pair[0]: pair[1] for pair in pairs if len(pair) == 2}


def as_posted(field: forms.Field, value: Any) -> list[str]:
    """What a browser would send for a stored value that nobody touched."""
    if isinstance(field, forms.BooleanField):
        return ["on"] if value else []
    shown = field.widget.format_value(field.prepare_value(value))
    return [str(each) for each in shown] if isinstance(shown, list) else [str(shown or "")]


def join(theirs: str, ours: str) -> str:
    """Both, theirs first; a line that both have stands once."""
    there = [line.strip() for line in theirs.splitlines()]
    new = [line for line in ours.splitlines() if line.strip() not in there]
    return "\n".join([*theirs.splitlines(), *new])


def who_gives_way(was: str | None, now: str, ours: str, empty: bool, pick: str) -> str:
    """Whose answer is kept: "ours", "theirs", "both", or "clash" where people must say.

    `was`, `now` and `ours` are marks of what was shown, is stored, and was typed; `was` is None
    where the page did not show the answer, and then an empty box gives way. `pick` is a choice
    made earlier, with the mark of what it was made against.
    """
    if ours == now or was == now:
        return "ours"
    if ours == was or (was is None and empty):
        return "theirs"
    picked, _dash, against = pick.partition("-")
    known = picked in {"ours", "theirs", "both"} and against == now
    return picked if known else "clash"
