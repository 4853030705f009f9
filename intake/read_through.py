"""All answers as plain lines, for the couple to read before sending and for the photographer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.db.models import Model

from .answer_form import AnswerForm, said
from .models import Wedding
from .names import split_names
from .steps import STEPS, Part, Step


@dataclass(frozen=True)
class ReadRow:
    """One row of a list: its heading and the other answers as (label, words)."""

    heading: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class ReadPart:
    title: str
    rows: tuple[ReadRow, ...]


def read_steps(wedding: Wedding) -> Iterator[tuple[Step, list[ReadPart]]]:
    for step in STEPS:
        yield step, [ReadPart(str(part.title), tuple(_rows(part, wedding))) for part in step.parts]


def _rows(part: Part, wedding: Wedding) -> Iterator[ReadRow]:
    if part.rows:
        form = part.form(wedding=wedding)
        for row in part.form.stored(wedding):
            yield ReadRow(str(row), tuple(_lines(form, row, str(row))))
    elif lines := tuple(_lines(part.form(instance=wedding), wedding)):
        yield ReadRow("", lines)


def _lines(form: AnswerForm, row: Model, heading: str = "") -> Iterator[tuple[str, str]]:
    for name in form.asked():
        value = getattr(row, name)
        words = (
            ", ".join(split_names(value)) if name == "people" else said(form.fields[name], value)
        )
        if words and words != heading:
            yield str(form.fields[name].label), words
