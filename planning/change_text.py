"""A repair as the text that its button posts, read into the fields of a decision."""

from __future__ import annotations

import re
from datetime import time
from typing import Any

from .compute.network import Hours

PART = re.compile(r"([\w-]{1,80}):(out|takes:\d+-\d+-\d+|at:-?\d+|within:-?\d+-\d+)")


def fields_of(change: str, hours: Hours) -> dict[str, Any]:
    verb, _colon, rest = change.partition(":")
    if verb == "out":
        return {"left_out": True}
    numbers = [
        int(found) for found in re.findall(r"(?<!\d)-?\d+" if verb == "at" else r"\d+", rest)
    ]
    if verb == "takes":
        return dict(zip(("least", "likely", "most"), sorted(numbers), strict=True))
    times = [time_of(hours, number) for number in numbers]
    return {"at": times[0]} if verb == "at" else dict(zip(("opens", "closes"), times, strict=False))


def time_of(hours: Hours, minute: int) -> time:
    return hours.at(minute).time().replace(tzinfo=None, fold=0)
