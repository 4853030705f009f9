"""The studio's own questions, what one wedding is asked, and how couples see it."""

from __future__ import annotations

from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from intake.answers import errors_of
from intake.listed import shared_questions
from intake.models import Wedding
from intake.own_form import PREFIX, OwnForm
from intake.rows import quiet_rows, rows_of, typed
from intake.steps import MORE_STEP, STEPS, Part, Step
from studio.in_turn import in_turn

from .not_asked_form import NotAskedForm
from .question_form import QUESTIONS, QuestionRows
from .row_acts import focus_added, rearranged


@require_http_methods(["GET", "HEAD", "POST"])
def questions(request: HttpRequest) -> HttpResponse:
    return _edit(request, None, "planning/questions.html", "questions")


@require_http_methods(["GET", "HEAD", "POST"])
def wedding_questions(request: HttpRequest, public_id: str) -> HttpResponse:
    """What does not apply to this couple, and what only they are asked: one page, one Keep."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    return _edit(request, wedding, "planning/wedding_questions.html", "wedding_questions")


def _edit(
    request: HttpRequest, wedding: Wedding | None, template: str, address: str
) -> HttpResponse:
    data = typed(request.POST, [QUESTIONS.prefix]) if request.method == "POST" else None
    do, row, errors = data.get("do", "save") if data is not None else "", None, []
    if do == "save":
        rows, form, errors = _keep(wedding, data)
        if not errors:
            messages.success(request, _("Kept."))
            return redirect(address, *([wedding.public_id] if wedding else []))
    else:
        if data is not None:
            data, row = rearranged(data, QUESTIONS, do)
        rows, form = _forms(wedding, data)
        quiet_rows(rows)
        focus_added(rows, row, do, "text")
    page = {"wedding": wedding, "rows": rows, "form": form, "part": QUESTIONS, "errors": errors}
    page |= {"focus": row, "pressed": do.partition(":")[0], "unkept": data is not None}
    return render(request, template, page | {"screen": "questions"})


def _forms(
    wedding: Wedding | None, data: QueryDict | None
) -> tuple[QuestionRows, NotAskedForm | None]:
    rows = rows_of(QUESTIONS, wedding, data, QuestionRows)
    return rows, NotAskedForm(data, wedding=wedding) if wedding else None


@in_turn()  # what another page keeps meanwhile is told, not undone
def _keep(
    wedding: Wedding | None, data: QueryDict
) -> tuple[QuestionRows, NotAskedForm | None, list[tuple[str, str]]]:
    rows, form = _forms(wedding, data)
    errors = [*errors_of(rows, str(QUESTIONS.one)), *(errors_of(form) if form else [])]
    if not errors:
        rows.save()
        if form:
            form.save()
    return rows, form, errors


@require_safe
def preview_questions(request: HttpRequest) -> HttpResponse:
    """The studio's questions drawn by the couple's own templates, on a wedding of nobody."""
    nobody = Wedding()
    asked = {question.step for question in shared_questions()}
    steps = [
        (step, [(replace(part, title=""), _of_nobody(step, part, nobody))])
        for step in (*STEPS, MORE_STEP)
        for part in step.parts
        if part.prefix == PREFIX and step.slug in asked
    ]
    page = {"steps": steps, "screen": "questions", "wedding": None}
    return render(request, "planning/preview_questions.html", page)


def _of_nobody(step: Step, part: Part, nobody: Wedding) -> OwnForm:
    return part.form(prefix=f"{PREFIX}-{step.slug}", instance=nobody)
