"""How many people stand in each group photograph, kept or only typed."""

from __future__ import annotations

from typing import NamedTuple

from .answers import Answers
from .models import Wedding
from .names import split_names


class Crowd(NamedTuple):
    """Who is in a group: names, a head-count beside them, and whether everybody is."""

    people: str
    extra: int
    everyone: bool


def kept_sizes(wedding: Wedding) -> list[int]:
    return _sizes([Crowd(g.people, g.extra, g.everyone) for g in wedding.groups.all()])


def typed_sizes(answers: Answers) -> list[int]:
    """The sizes of the groups on the page, whether they could be kept or not."""
    return _sizes(
        [
            _typed(row)
            for part, rows in answers.parts
            if part.prefix == "groups"
            for row in rows.forms
            if not row["DELETE"].value()
        ]
    )


def _typed(row: object) -> Crowd:
    extra = str(row["extra"].value() or "").strip()
    count = int(extra) if extra.isascii() and extra.isdigit() and len(extra) < 5 else 0
    return Crowd(str(row["people"].value() or ""), count, bool(row["everyone"].value()))


def _sizes(crowds: list[Crowd]) -> list[int]:
    """Everybody is whoever is named in any group, or the head-count where that is larger."""
    named = [{name.casefold() for name in split_names(crowd.people)} for crowd in crowds]
    all_named = len(set().union(*named))
    sizes = [
        max(all_named, crowd.extra) if crowd.everyone else len(names) + crowd.extra
        for crowd, names in zip(crowds, named, strict=True)
    ]
    return [size for size in sizes if size]
