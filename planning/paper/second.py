"""The second photographer's own part of the days, as second_page.py builds it."""

from __future__ import annotations

from typing import Any

from planning.second_page import has_second, second_sheet

from .subject import Reader, Subject


def has_second_day(subject: Subject) -> bool:
    return has_second(subject.plan)


def second(subject: Subject, reader: Reader) -> dict[str, Any]:
    studio = subject.studio
    return {"sheet": second_sheet(subject.plan), "studio": (studio.name, studio.phone)}
