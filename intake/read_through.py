"""All answers as plain lines, for the couple to read before sending and for the photographer."""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass
from typing import Any

from django.db.models import Model
from django.utils.translation import gettext as _

from .answer_form import AnswerForm, said
from .merging import mark
from .models import Wedding
from .names import split_names
from .not_asked import is_asked
from .own_form import PREFIX
from .own_words import Said, heading, own_answers
from .phones import said_back
from .steps import MORE_STEP, MORE_TITLE, STEPS, Part, Step


@dataclass(frozen=True)
class ReadRow:
    """One row of a list: its heading and the other answers as (label, words).

    `key` names it among all answers of a wedding: its step, its part, and the row itself.
    """

    heading: str
    lines: tuple[tuple[str, str], ...]
    key: str = ""
    file: str = ""  # the key of the question that it answers with a file

    @property
    def mark(self) -> str:
        """Another one whenever the answer is."""
        return mark([self.heading, *(words for _label, words in self.lines)])


@dataclass(frozen=True)
class ReadPart:
    title: str
    rows: tuple[ReadRow, ...]


def read_steps(wedding: Wedding) -> Iterator[tuple[Step, list[ReadPart]]]:
    """Every page on the couple's list, and those taken off it on which something is kept."""
    own = own_answers(wedding)
    whole = copy(wedding)
    whole.not_asked = []  # what was said is read, though it is not asked any more
    for step in (*STEPS, MORE_STEP):
        parts = ((p, f"{step.slug}.{p.prefix}") for p in step.parts if p.prefix != PREFIX)
        read = [ReadPart(str(p.title), tuple(_rows(p, whole, key))) for p, key in parts]
        read += _own_parts(step, [each for each in own if each.step == step.slug])
        listed = step is not MORE_STEP and is_asked(wedding, f"step.{step.slug}")
        if listed or any(part.rows for part in read):
            yield step, read


def _own_parts(step: Step, own: list[Said]) -> Iterator[ReadPart]:
    now = tuple(_own_row(each) for each in own if not each.is_past)
    past = tuple(_own_row(each) for each in own if each.is_past)
    yield ReadPart("" if step is MORE_STEP else str(MORE_TITLE), now)
    yield ReadPart(_("Answered earlier, and not asked any more"), past)


def _own_row(said: Said) -> ReadRow:
    lines = ((_("Answer"), said.words),)
    return ReadRow(heading(said), lines, f"{PREFIX}.{said.key}", said.file)


def headings(wedding: Wedding) -> dict[str, str]:
    """What each answer is about, by its key, in the language that is active."""
    return {
        row.key: row.heading or part.title or str(step.title)
        for step, parts in read_steps(wedding)
        for part in parts
        for row in part.rows
    }


def _rows(part: Part, wedding: Wedding, key: str) -> Iterator[ReadRow]:
    if part.rows:
        form = part.form(wedding=wedding)
        for row in part.form.stored(wedding):
            lines = tuple(_lines(form, row, wedding.zone, str(row)))
            yield ReadRow(str(row), lines, f"{key}.{row.key}")
    elif lines := tuple(_lines(part.form(instance=wedding), wedding, wedding.zone)):
        yield ReadRow("", lines, key)


def _lines(form: AnswerForm, row: Model, zone: str, heading: str = "") -> Iterator[tuple[str, str]]:
    for name in form.asked():
        words = _words(form, name, getattr(row, name), zone)
        if words and words != heading:
            yield str(form.fields[name].label), words


def _words(form: AnswerForm, name: str, value: Any, zone: str) -> str:
    if name == "people":
        return ", ".join(split_names(value))
    if name.endswith("phone") and (abroad := said_back(value, zone)):
        return f"{value} ({abroad})"
    return said(form.fields[name], value)
