"""How many people stand in each group photograph, kept or only typed."""

from __future__ import annotations

from .answers import Answers
from .models import Wedding
from .names import split_names


def kept_sizes(wedding: Wedding) -> list[int]:
    return [len(split_names(group.people)) + group.extra for group in wedding.groups.all()]


def typed_sizes(answers: Answers) -> list[int]:
    """The sizes of the groups on the page, whether they could be kept or not."""
    return [
        size
        for part, rows in answers.parts
        if part.prefix == "groups"
        for row in rows.forms
        if (size := _size(row)) and not row["DELETE"].value()
    ]


def _size(row: object) -> int:
    extra = str(row["extra"].value() or "").strip()
    named = len(split_names(str(row["people"].value() or "")))
    return named + (int(extra) if extra.isascii() and extra.isdigit() and len(extra) < 5 else 0)
