"""Answers to the studio's own questions in words, under the words in which they were asked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext as _

from studio.words import long_date

from .models import Wedding
from .own_fields import YES_NO, Kind
from .own_form import is_open, questions_of
from .own_models import Answer, Question


@dataclass(frozen=True)
class Said:
    """`asked` are the words they answered; `now` is how the question reads, where that differs.

    `is_past` where the question is not asked any more, or is answered in another way by now.
    """

    key: str
    step: str
    asked: str
    words: str
    now: str = ""
    is_past: bool = False
    file: str = ""  # the key of the question that a file answers


def own_answers(wedding: Wedding, questions: list[Question] | None = None) -> list[Said]:
    """Every answer that is kept, in the order of the questions; `questions` if known already."""
    asked = questions_of(wedding) if questions is None else questions
    places = {question.pk: (place, question) for place, question in enumerate(asked)}
    found = [(*places[a.question_id], a) for a in wedding.own_answers.all()]
    found.sort(key=lambda each: (each[0], each[2].pk))
    return [_said(answer, question, wedding) for _place, question, answer in found]


def _said(answer: Answer, question: Question, wedding: Wedding) -> Said:
    return Said(
        key=f"{question.key}.{answer.kind}",
        step=question.step,
        asked=answer.asked,
        words=in_words(answer.kind, answer.value),
        now="" if question.text == answer.asked else question.text,
        is_past=answer.kind != question.kind or not is_open(question, wedding),
        file=question.key if answer.kind == question.kind == Kind.FILE else "",
    )


def in_words(kind: str, value: Any) -> str:
    if kind == Kind.YES_NO:
        return str(dict(YES_NO).get(value, value))
    if kind == Kind.FILE:
        return value["called"]
    if kind == Kind.DATE:
        return long_date(date.fromisoformat(value))
    return ", ".join(value) if isinstance(value, list) else str(value)


def heading(said: Said) -> str:
    """The question as it was asked, and as it reads now."""
    if not said.now:
        return said.asked
    return _("%(asked)s (now: %(now)s)") % {"asked": said.asked, "now": said.now}
