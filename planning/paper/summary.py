"""The agreed summary on paper, as the couple read it: the newest version that was shared."""

from __future__ import annotations

from typing import Any

from planning.agreed_words import day_of
from planning.agreements import is_sound, read

from .subject import Reader, Subject


def has_summary(subject: Subject) -> bool:
    """Whether there is one, and it is the text that was shared."""
    shared = subject.standing.shared if subject.standing else None
    return shared is not None and is_sound(shared)


def summary(subject: Subject, reader: Reader) -> dict[str, Any]:
    shared = subject.standing.shared
    return {
        "said": read(shared),
        "number": shared.number,
        "day": day_of(shared.shared_at, shared),
        "confirmed": day_of(shared.confirmed_at, shared) if shared.confirmed_at else "",
        "by": shared.confirmed_by,
        "fingerprint": shared.fingerprint,
    }
