"""Everything that a couple entered, on paper for themselves."""

from __future__ import annotations

from typing import Any

from intake.progress import progress
from intake.read_through import ReadPart, ReadRow, read_steps
from planning.contact_sheet import small_image
from planning.meeting_models import MeetingPoint

from .subject import Reader, Subject
from .summary import has_summary, summary


def has_wedding(subject: Subject) -> bool:
    return subject.wedding is not None


def words(subject: Subject, reader: Reader) -> dict[str, Any]:
    """Their answers as they read them themselves, the newest summary, and what they said of it."""
    wedding = subject.wedding
    small = {f"pictures.pictures.{each.key}": each.small for each in wedding.pictures.all()}
    return {
        "steps": [
            (step, [(part, _rows(part, small)) for part in parts if part.rows])
            for step, parts in read_steps(wedding)
            if any(part.rows for part in parts)
        ],
        "drafts": [each.step for each in progress(wedding) if each.mark == "draft"],
        "agreed": summary(subject, reader) if has_summary(subject) else None,
        "told": list(wedding.meeting_points.filter(by=MeetingPoint.By.COUPLE)),
    }


def _rows(part: ReadPart, small: dict[str, str]) -> list[tuple[ReadRow, str]]:
    """Each with its picture, where it is one and the file is there."""
    return [(row, small_image(small[row.key]) if row.key in small else "") for row in part.rows]
