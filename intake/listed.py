"""Which pages one couple's list has, and what the studio's own questions still wait for."""

from __future__ import annotations

from collections.abc import Iterable

from .models import StepState, Wedding
from .not_asked import is_asked
from .own_form import in_order, is_open
from .own_models import Question
from .steps import MORE_STEP, STEPS, Step


def shared_questions() -> list[Question]:
    """The studio's own questions, as every wedding starts from them."""
    return list(Question.objects.filter(wedding=None, hidden=False, removed=False))


def open_questions(wedding: Wedding, shared: Iterable[Question] | None = None) -> list[Question]:
    """What a wedding is asked now; `shared` saves asking again where there are many weddings."""
    shared = shared_questions() if shared is None else shared
    found = [q for q in (*shared, *wedding.questions.all()) if is_open(q, wedding)]
    return in_order(found)


def unanswered(wedding: Wedding, questions: Iterable[Question]) -> list[Question]:
    """Those that count as missing: needed, and without an answer of the kind they have now."""
    answered = {(answer.question_id, answer.kind) for answer in wedding.own_answers.all()}
    return [q for q in questions if q.needed and (q.pk, q.kind) not in answered]


def listed_steps(
    wedding: Wedding, states: dict[str, StepState], questions: list[Question]
) -> list[Step]:
    """The pages on the list; one that was taken off stays while words on it are not kept."""
    here = [
        step
        for step in STEPS
        if is_asked(wedding, f"step.{step.slug}") or _holds_typing(states.get(step.slug))
    ]
    more = any(q.step == MORE_STEP.slug for q in questions)
    if more or _holds_typing(states.get(MORE_STEP.slug)):
        here.append(MORE_STEP)
    return here


def _holds_typing(state: StepState | None) -> bool:
    return bool(state and state.draft)
