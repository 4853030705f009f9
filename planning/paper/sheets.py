"""The table of papers: what can be printed, for whom, and what each holds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as _

from .coordinator import in_charge
from .helper import helpers
from .part import NOBODY
from .subject import Reader, Subject


def _one(subject: Subject) -> list[Reader]:
    return [NOBODY]


@dataclass(frozen=True)
class Sheet:
    """`key` stands in the address and in the table of parts; `readers` are those who get one each.

    `called` is what stands on the paper itself, where that is not its title; `choosable` papers
    print the parts that are ticked; `couples` are in the couple's language.
    """

    key: str
    title: Any
    holds: Any
    readers: Callable[[Subject], list[Reader]] = _one
    choosable: bool = False
    couples: bool = False
    called: Any = ""

    @property
    def heading(self) -> Any:
        return self.called or self.title


SHEETS: tuple[Sheet, ...] = (
    Sheet(
        "day-pack",
        _("Day pack"),
        _(
            "Everything for the day on paper: contacts, timeline with light, groups in order, "
            "places, what to care for. It holds private notes: it is for you alone."
        ),
        choosable=True,
    ),
    Sheet(
        "calling-list",
        _("Calling list"),
        _(
            "The groups in order and who to fetch next, one for each helper. It holds no phone "
            "numbers but yours and no private notes."
        ),
        helpers,
    ),
    Sheet(
        "coordinator",
        _("In charge at a place"),
        _(
            "One page for whoever is in charge: what happens there and when, what you need, and "
            "by when rain is decided. It holds no guests, and nothing of other places."
        ),
        in_charge,
        called=_("The photographer’s times with you"),
    ),
    Sheet(
        "second-photographer",
        _("Second photographer"),
        _(
            "Their own blocks, drives and places, and the groups if these are theirs. It holds no "
            "private notes, and no phones but yours and those of who is in charge of a place."
        ),
    ),
    Sheet(
        "suppliers",
        _("Others who work there"),
        _(
            "The times of the day and the places, for music, food, flowers and film. It holds no "
            "guests and no phones but yours."
        ),
        called=_("Times of the day"),
    ),
    Sheet(
        "agreed-summary",
        _("Agreed summary"),
        _(
            "What the couple were shown last, word for word, in their language. It holds no "
            "phones, and nothing of what to care for."
        ),
        couples=True,
    ),
    Sheet(
        "their-words",
        _("All that the couple entered"),
        _(
            "Their answers, the summary and what they said of it, in their language, for the two "
            "of them: they find it under their link too. It holds guests’ names and phones and "
            "what to care for, and nothing that you noted."
        ),
        couples=True,
        called=_("All that you entered"),
    ),
    Sheet(
        "agenda",
        _("Agenda of the planning meeting"),
        _(
            "What is open, every answer with room to write, and what they may expect. It holds "
            "private notes: it is for you alone."
        ),
        called=_("Planning meeting"),
    ),
)
BY_KEY = {sheet.key: sheet for sheet in SHEETS}
