"""A list that one puts in order: a row added or moved by a button, with JS off too."""

from __future__ import annotations

import re

from django.http import QueryDict

from intake.rows import RowSet, with_one_more, with_row_moved
from intake.steps import Part

STEP = {"earlier": -1, "later": 1}


def rearranged(
    data: QueryDict, part: Part, do: str, begins_with: dict[str, str] | None = None
) -> tuple[QueryDict, str | None]:
    """The typing with a row added or moved, and the prefix of that row; None where no act fits."""
    prefix = part.prefix
    verb, _colon, name = do.partition(":")
    number = name.removeprefix(f"{prefix}-")
    at = int(number) if re.fullmatch(r"[0-9]{1,4}", number) else -1
    if verb in STEP:
        to = at + STEP[verb]
        moved = with_row_moved(data, prefix, at, to)
        return moved, f"{prefix}-{to if f'{prefix}-{to}-key' in moved else at}"
    if verb == "after" or do == f"add-{prefix}":
        data = with_one_more(data, prefix)
        last = int(data[f"{prefix}-TOTAL_FORMS"]) - 1
        for field, value in (begins_with or {}).items():
            data.setdefault(f"{prefix}-{last}-{field}", value)
        to = at + 1 if 0 <= at < last else last
        return with_row_moved(data, prefix, last, to), f"{prefix}-{to}"
    return data, None


def focus_added(rows: RowSet, prefix: str | None, do: str, field: str) -> None:
    """Typing goes on in a row that was added; a moved one has the focus on its button."""
    added = next((row for row in rows if row.prefix == prefix), None)
    if added and do.partition(":")[0] not in STEP:
        added.fields[field].widget.attrs["autofocus"] = True
