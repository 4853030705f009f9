"""The crossing of what couples were asked beside the plan itself: sharing, the studio's own
questions, what does not apply, phone numbers that nobody could dial, and what left the answers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from intake import models as words
from intake.listed import unanswered
from intake.own_form import in_order, is_open
from intake.own_models import Question
from intake.own_words import heading, own_answers
from intake.phones import international

from .compute.values import Allowed, OpenQuestion, OwnAnswer, TakenOut, UnreadPhone
from .taken_out import lost_blocks, name_of, name_of_row, rows_taken_out

USES = ("online", "children", "gallery", "supplier_use")


def asked_values(wedding: words.Wedding, shared: list[Question]) -> dict[str, Any]:
    """Fields of a Brief; `shared` are the studio's own questions, put away ones too."""
    questions = in_order([*shared, *wedding.questions.all()])
    waits = unanswered(wedding, [q for q in questions if is_open(q, wedding)])
    return {
        "allowed": _allowed(wedding),
        "sharing_note": wedding.sharing_note,
        "own_answers": tuple(
            OwnAnswer(heading(a), a.words, a.step, a.is_past)
            for a in own_answers(wedding, questions)
        ),
        "open_questions": tuple(OpenQuestion(q.text, q.step) for q in waits),
        "not_asked": frozenset(wedding.not_asked),
        "unread_phones": tuple(_unread_phones(wedding)),
        "taken_out": tuple(_taken_out(wedding)),
    }


def _allowed(wedding: words.Wedding) -> tuple[Allowed, ...]:
    return tuple(
        Allowed(kind, getattr(wedding, kind), getattr(wedding, f"get_{kind}_display")())
        for kind in USES
        if getattr(wedding, kind)
    )


def _unread_phones(wedding: words.Wedding) -> Iterator[UnreadPhone]:
    """What stands where a phone number belongs, and holds none that can be dialled."""
    phones = [(p.short, p.phone, "two-of-you") for p in wedding.partners.all()]
    phones += [(p.name, p.coordinator_phone, "places") for p in wedding.places.all()]
    phones += [(c.name, c.phone, "people") for c in wedding.contacts.all()]
    for name, phone, step in phones:
        if phone and not international(phone, wedding.zone):
            yield UnreadPhone(name, phone, step)


def _taken_out(wedding: words.Wedding) -> Iterator[TakenOut]:
    for kind, row in rows_taken_out(wedding):
        yield TakenOut(kind, name_of_row(row))
    for decision, moment in lost_blocks(wedding):
        yield TakenOut("moved" if moment else "time", name_of(decision, moment))
