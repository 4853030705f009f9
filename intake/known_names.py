"""Names that the couple have typed anywhere, to be offered again."""

from __future__ import annotations

from .answers import Answers
from .models import Wedding
from .names import split_names

MOST = 500


def known_names(wedding: Wedding, answers: Answers) -> list[str]:
    """Each name once, as it was first typed: kept ones, then those on the page."""
    found = [partner.short for partner in wedding.partners.all()]
    found += [contact.name for contact in wedding.contacts.all()]
    found += [name for group in wedding.groups.all() for name in split_names(group.people)]
    found += [note.person for note in wedding.carenotes.all()]
    for part, rows in answers.parts:
        if part.prefix == "groups":
            found += [n for row in rows.forms for n in split_names(row["people"].value() or "")]
    once = {name.casefold(): name for name in reversed(found) if name}
    return sorted(once.values(), key=str.casefold)[:MOST]
