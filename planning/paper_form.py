"""How papers are chosen: on the page Papers, in the address of a paper, and at the command line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from .paper.part import NOBODY, Part
from .paper.parts import parts_of
from .paper.printing import CHOOSABLE, SIZES, Printing
from .paper.sheets import SHEETS, Sheet
from .paper.subject import Reader, Subject
from .pdf import to_print


class PrintForm(forms.Form):
    """Nothing chosen at all prints everything on A4; a form without a tick prints nothing."""

    part = forms.MultipleChoiceField(
        choices=[(key, key) for key in CHOOSABLE],
        required=False,
        error_messages={"invalid_choice": _("There is no part %(value)s.")},
    )
    size = forms.ChoiceField(
        choices=list(SIZES.items()),
        required=False,
        error_messages={"invalid_choice": _("There is no size %(value)s.")},
    )
    grey = forms.BooleanField(required=False)

    def __init__(self, data: QueryDict, *, subject: Subject, sheet: Sheet) -> None:
        super().__init__(data)
        self.subject, self.sheet = subject, sheet
        self.readers = {reader.key: reader for reader in sheet.readers(subject)}

    @classmethod
    def shown(cls, data: QueryDict) -> Shown:
        """What the page has ticked: everything at first, then as it was left."""
        parts = data.getlist("part") if "size" in data else CHOOSABLE
        return Shown(frozenset(parts), data.get("size", "a4"), "grey" in data)

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if self.errors:
            return data
        asked = self.data.get("for", "")
        if asked and asked not in self.readers:
            raise forms.ValidationError(_("Nobody of that name gets this paper now."))
        if not to_print(self.subject, self.sheet, self.printing):
            raise forms.ValidationError(self._nothing())
        return data

    def _nothing(self) -> str:
        if self.sheet.choosable:
            return str(_("Choose a part of the day pack that has something to print."))
        return str(parts_of(self.sheet.key)[0].lacks)

    @property
    def reader(self) -> Reader:
        """Who the paper is for; the first where nobody was said."""
        first = next(iter(self.readers.values()), NOBODY)
        return self.readers.get(self.data.get("for", ""), first)

    @property
    def printing(self) -> Printing:
        data = self.cleaned_data
        chosen = data.get("part") or (() if "size" in self.data else CHOOSABLE)
        return Printing(frozenset(chosen), data.get("size") or "a4", bool(data.get("grey")))


@dataclass(frozen=True)
class Shown:
    parts: frozenset[str]
    size: str
    grey: bool

    @property
    def sizes(self) -> list[tuple[str, Any]]:
        return list(SIZES.items())


@dataclass(frozen=True)
class Offer:
    """A paper on the page: its parts with whether each has anything to print, and its readers.

    `lacks` says why it cannot be printed at all; empty where it can.
    """

    sheet: Sheet
    parts: list[tuple[Part, bool]]
    readers: list[Reader]
    lacks: str


def offers(subject: Subject) -> list[Offer]:
    return [_offer(subject, sheet) for sheet in SHEETS]


def _offer(subject: Subject, sheet: Sheet) -> Offer:
    parts = [(part, part.needs(subject)) for part in parts_of(sheet.key)]
    lacks = "" if any(there for _part, there in parts) else str(parts[0][0].lacks)
    return Offer(sheet, parts if sheet.choosable else [], sheet.readers(subject), lacks)
