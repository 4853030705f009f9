"""All answers as plain lines, for the couple to read before sending and for the photographer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.db.models import Model

from .answer_form import AnswerForm, said
from .merging import mark
from .models import Wedding
from .names import split_names
from .steps import STEPS, Part, Step


@dataclass(frozen=True)
class ReadRow:
    """One row of a list: its heading and the other answers as (label, words).

    `key` names it among all answers of a wedding: its step, its part, and the row itself.
    """

    heading: str
    lines: tuple[tuple[str, str], ...]
    key: str = ""

    @property
    def mark(self) -> str:
        """Another one whenever the answer is."""
        return mark([self.heading, *(words for _label, words in self.lines)])


@dataclass(frozen=True)
class ReadPart:
    title: str
    rows: tuple[ReadRow, ...]


def read_steps(wedding: Wedding) -> Iterator[tuple[Step, list[ReadPart]]]:
    for step in STEPS:
        parts = ((part, f"{step.slug}.{part.prefix}") for part in step.parts)
        yield step, [ReadPart(str(p.title), tuple(_rows(p, wedding, key))) for p, key in parts]


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
            yield ReadRow(str(row), tuple(_lines(form, row, str(row))), f"{key}.{row.key}")
    elif lines := tuple(_lines(part.form(instance=wedding), wedding)):
        yield ReadRow("", lines, key)


def _lines(form: AnswerForm, row: Model, heading: str = "") -> Iterator[tuple[str, str]]:
    for name in form.asked():
        value = getattr(row, name)
        words = (
            ", ".join(split_names(value)) if name == "people" else said(form.fields[name], value)
        )
        if words and words != heading:
            yield str(form.fields[name].label), words
