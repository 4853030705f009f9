"""What a person's JSON file may say: the checks that every file of ours goes through."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any
from unicodedata import category

MOST_LETTERS = 200


class ProblemError(ValueError):
    """The file or the list makes no sense; the message is one line for a person."""


def opened(text: str, fields: set[str], rows_of: str, most: Mapping[str, int]) -> dict[str, Any]:
    """The object in a text, with nothing in it but `fields`, something in its list `rows_of`, and
    no more in each list than `most` allows."""
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise ProblemError(f"not JSON: {error}") from error
    table(data, "the file", fields)
    if not rows(data, rows_of):
        raise ProblemError(f'the file has no "{rows_of}", or none in it')
    for name, count in most.items():
        if len(rows(data, name)) > count:
            raise ProblemError(f"more than {count} {name}")
    return data


def table(value: Any, name: str, fields: set[str] | None = None) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise ProblemError(f"{name} must be a JSON object")
    for field in value:
        if fields is not None and field not in fields:
            raise ProblemError(f"{name} has a field {quoted(field)} that nobody knows")
    return value


def rows(data: dict[str, Any], name: str, where: str = "") -> list[Any]:
    value = data.get(name, [])
    if not isinstance(value, list):
        raise ProblemError(f"{where}{name} must be a list")
    return value


def quoted(value: Any) -> str:
    """As JSON and never more than one short line."""
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + "..."


def words(value: Any, name: str) -> str:
    if not isinstance(value, str) or not value.strip():
        raise ProblemError(f"{name} must be a text that is not empty")
    if len(value) > MOST_LETTERS:
        raise ProblemError(f"{name} has more than {MOST_LETTERS} letters")
    return whole_letters(value, name)


def whole_letters(value: str, name: str) -> str:
    """JSON may hold half a letter ("\\ud800"), which nothing can print, and control characters,
    which a terminal obeys."""
    kinds = {category(letter) for letter in value}
    if "Cs" in kinds:
        raise ProblemError(f"{name} holds half a letter")
    if "Cc" in kinds:
        raise ProblemError(f"{name} holds a control character")
    return value
