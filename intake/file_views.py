"""A file that answers one of the studio's own questions: a page of its own.

A file cannot be drafted, nor sent again by a browser that was shown an error; on a page by itself
nothing else is lost where it is refused.
"""

from __future__ import annotations

from django import forms
from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from .links import wedding_for_request
from .models import Wedding
from .own_form import questions_of
from .own_models import Answer, Question
from .store import (
    MEGABYTE,
    MOST_BYTES,
    PDF_FILES,
    PICTURE_FILES,
    BadFileError,
    forget,
    keeping,
    sent,
)
from .views import couples_page

ACCEPT = f"{PDF_FILES},{PICTURE_FILES}"


class FileForm(forms.Form):
    file = forms.FileField(widget=forms.FileInput({"accept": ACCEPT}), allow_empty_file=True)
    was = forms.SlugField(max_length=64, required=False)  # what the page showed


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def own_file(request: HttpRequest, public_id: str, key: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    question = _question(wedding, key)
    error = ""
    if request.method == "POST":
        error = _act(request, wedding, question)
        if not error:
            return redirect("step", public_id, question.step)
    page = {
        "wedding": wedding,
        "question": question,
        "answer": _answer(wedding, question),
        "accept": ACCEPT,
        "megabytes": MOST_BYTES // MEGABYTE,
        "errors": [("id_file", error)] if error else [],
    }
    return render(request, "intake/own_file.html", page)


@couples_page
@require_safe
def sent_own_file(request: HttpRequest, public_id: str, key: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    answer = _answer(wedding, _question(wedding, key))
    if answer is None:
        raise Http404("file")
    return sent(answer.value["file"], answer.value["called"].rpartition(".")[0] or "file")


def _question(wedding: Wedding, key: str) -> Question:
    """One that is put away stays open here, for a page that shows it and a file that is there."""
    asked = (q for q in questions_of(wedding) if q.key == key and q.kind == Question.Kind.FILE)
    question = next(asked, None)
    if question is None:
        raise Http404("question")
    return question


def _answer(wedding: Wedding, question: Question) -> Answer | None:
    return wedding.own_answers.filter(question=question, kind=Question.Kind.FILE).first()


def _act(request: HttpRequest, wedding: Wedding, question: Question) -> str:
    """Keep or remove a file; what is wrong, in one line, or ""."""
    form = FileForm(request.POST, request.FILES)
    form.is_valid()
    was, upload = form.cleaned_data.get("was", ""), form.cleaned_data.get("file")
    removes = request.POST.get("do") == "remove"
    if not removes and upload is None:
        return _("Choose a file first.")
    try:
        if removes:
            return _change(wedding, question, was, None)
        return _keep(wedding, question, was, upload, request)
    except BadFileError as wrong:
        words = {"name": Truncator(upload.name).chars(60), "what": wrong}
        return _("“%(name)s”: %(what)s") % words


def _keep(
    wedding: Wedding, question: Question, was: str, upload: UploadedFile, request: HttpRequest
) -> str:
    with keeping(upload, wedding.public_id, pdf=True) as kept:
        called = Truncator(upload.name).chars(120)
        value = {"file": kept.name, "small": kept.small, "digest": kept.digest, "called": called}
        error = _change(wedding, question, was, value)
        if error:
            forget(kept.name, kept.small)
            return error
    messages.success(request, _("Kept: %(file)s.") % {"file": called})
    return ""


@transaction.atomic
def _change(wedding: Wedding, question: Question, was: str, value: dict[str, str] | None) -> str:
    """Put a file in the place of the one that the page showed, or nothing; what is wrong, or ""."""
    Wedding.objects.select_for_update().get(pk=wedding.pk)
    answer = _answer(wedding, question)
    now = answer.value["digest"] if answer else ""
    if value and value["digest"] == now:  # sent twice
        forget(value["file"], value["small"])
        return ""
    if now != was:
        return _(
            "Another file was sent from another phone or computer meanwhile. Look at it first."
        )
    if answer:
        forget(answer.value["file"], answer.value["small"])
        answer.delete()
    if value:
        mine = {"wedding": wedding, "question": question, "kind": question.kind}
        Answer.objects.create(**mine, asked=question.text, value=value)
    return ""
