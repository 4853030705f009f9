"""How a paper is to be printed: which parts, on what size, with or without colour."""

from __future__ import annotations

from dataclasses import dataclass, field

from django.utils.translation import gettext_lazy as _

from .parts import parts_of
from .sheets import SHEETS

CHOOSABLE = tuple(part.key for sheet in SHEETS if sheet.choosable for part in parts_of(sheet.key))
SIZES = {
    "a4": _("A4"),
    "a6": _("Pocket: A6, four pages on one side of A4, to be folded twice"),
    "a6-pages": _("A6 pages one by one, for a phone or for A6 paper"),
}


@dataclass(frozen=True)
class Printing:
    """`parts` are keys of the table of parts; they count only for papers whose parts are chosen."""

    parts: frozenset[str] = field(default_factory=lambda: frozenset(CHOOSABLE))
    size: str = "a4"
    grey: bool = False

    @property
    def pocket(self) -> bool:
        return self.size != "a4"
