"""Which sheets the page Papers offers as a link for a phone, and to whom."""

from __future__ import annotations

from dataclasses import dataclass

from .paper.parts import parts_of
from .paper.sheets import BY_KEY, Sheet
from .paper.subject import Subject
from .sheet_links import helpers_by_key, sheet_path
from .sheet_models import SheetLink


@dataclass(frozen=True)
class SheetOffer:
    """`value` names sheet and person in a form, `name` is the person's, `path` the link's own,
    both empty where there is none."""

    sheet: Sheet
    value: str
    name: str
    path: str


def sheet_offers(subject: Subject) -> list[SheetOffer]:
    """One for the second photographer and one for each helper, where they have anything to read
    or a link already."""
    wedding = subject.wedding
    there = {(link.sheet, link.person): link for link in wedding.sheet_links.all()}
    helpers = {key: reader.name for key, reader in helpers_by_key(wedding).items()} or {"": ""}
    people = [(SheetLink.Sheet.SECOND.value, "", "")]
    people += [(SheetLink.Sheet.CALLING.value, key, name) for key, name in helpers.items()]
    found = []
    for sheet, person, name in people:
        link = there.get((sheet, person))
        if link or any(part.needs(subject) for part in parts_of(sheet)):
            path = sheet_path(link) if link else ""
            found.append(SheetOffer(BY_KEY[sheet], f"{sheet}:{person}", name, path))
    return found
