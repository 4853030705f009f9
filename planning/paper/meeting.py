"""The planning meeting on paper, of what its page shows. It is for the photographer alone."""

from __future__ import annotations

from typing import Any

from planning.meeting_page import meeting_page
from planning.meeting_sheet import Sheet

from .subject import Reader, Subject


def has_wedding(subject: Subject) -> bool:
    return subject.wedding is not None


def agenda(subject: Subject, reader: Reader) -> dict[str, Any]:
    page = meeting_page(subject.wedding, Sheet(subject.wedding))
    return page | {"studio": subject.studio}
