"""All answers as plain lines, for the couple to read before sending and for the photographer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.db.models import Model
from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _

from .forms import MomentForm
from .models import Use, Wedding
from .names import split_names
from .steps import STEPS, Part, Step

USES = dict(Use.choices)
DAY_LABEL = MomentForm.Meta.labels["day"]


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
    if not part.rows:
        lines = tuple(_lines(part, wedding))
        yield from [ReadRow("", lines)] if lines else []
        return
    one_day = len(wedding.days.all()) < 2
    for row in part.form.stored(wedding):
        lines = dict(_lines(part, row))
        if one_day:
            lines.pop(str(DAY_LABEL), None)
        heading = str(row)
        said = tuple((label, words) for label, words in lines.items() if words != heading)
        yield ReadRow(heading, said)


def _lines(part: Part, row: Model) -> Iterator[tuple[str, str]]:
    labels = part.form._meta.labels or {}
    for name in part.form._meta.fields:
        words = _words(row, name)
        if name != "key" and words:
            field = part.form.base_fields.get(name)
            yield str(labels.get(name) or field.label), words


def _words(row: Model, name: str) -> str:
    value: Any = getattr(row, name)
    if name == "people":
        return ", ".join(split_names(value))
    if name == "uses":
        return ", ".join(str(USES[use]) for use in value if use in USES)
    if name == "at" and value:
        return time_format(value, "H:i")
    if name == "date" and value:
        return date_format(value, "l j F Y")
    if value is True:
        return _("yes")
    display = getattr(row, f"get_{name}_display", None)
    return str(display() if display and value else value or "")
