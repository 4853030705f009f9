"""The studio's own questions, as the photographer writes them."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Count, QuerySet
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from intake.answer_form import RowForm
from intake.models import Question, Wedding
from intake.own_form import PREFIX
from intake.rows import OrderedRows
from intake.steps import MORE_STEP, STEPS, Part

MOST_QUESTIONS, MOST_CHOICES, LONGEST_CHOICE = 60, 40, 120
KINDS = [
    (Question.Kind.SHORT, _("A line of text")),
    (Question.Kind.LONG, _("A longer text")),
    (Question.Kind.YES_NO, _("Yes or no")),
    (Question.Kind.ONE, _("One of several choices")),
    (Question.Kind.SEVERAL, _("Any of several choices")),
    (Question.Kind.DATE, _("A date")),
    (Question.Kind.NUMBER, _("A number")),
    (Question.Kind.FILE, _("A file: a PDF or a picture")),
]
CHOOSING = {Question.Kind.ONE, Question.Kind.SEVERAL}


class QuestionForm(RowForm):
    """A question of the studio's, or of one wedding where there is one."""

    class Meta:
        model = Question
        fields = ("key", "text", "kind", "choices", "hint", "step", "needed", "hidden")
        labels = {
            "text": _("Question"),
            "kind": _("Answered with"),
            "choices": _("Choices, one a line"),
            "hint": _("Hint or reason below it"),
            "step": _("On the page"),
            "needed": _("Counts as missing until it is answered"),
            "hidden": _("Not asked for now"),
        }
        help_texts = {"choices": _("Only for “one” or “any of several choices”.")}
        widgets = {
            "text": forms.TextInput({"autocomplete": "off"}),
            "hint": forms.TextInput({"autocomplete": "off"}),
            "choices": forms.Textarea({"rows": 4}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["kind"].initial = Question.Kind.SHORT
        self.fields["kind"].choices = KINDS
        self.fields["step"].widget = forms.Select()
        self.fields["step"].widget.choices = page_choices()
        self.fields["step"].initial = MORE_STEP.slug

    @classmethod
    def stored(cls, wedding: Wedding | None) -> QuerySet:
        rows = Question.objects.filter(wedding=wedding, removed=False)
        return rows.annotate(count=Count("answers")).order_by("position", "pk")

    @classmethod
    def read(cls, row: Question) -> dict[str, Any]:
        return super().read(row) | {"count": row.count}

    def write(self, key: str, values: dict[str, Any]) -> None:
        """A key of another wedding's question names none here."""
        mine = Question.objects.filter(key=key, wedding=self.wedding).first()
        if mine is None and Question.objects.filter(key=key).exists():
            mine = Question()
        question = mine or Question(key=key)
        question.wedding, question.removed = self.wedding, False
        for name, value in values.items():
            setattr(question, name, value)
        question.save()

    def remove(self, key: str) -> None:
        """It stays for the answers that it has, or that are on their way."""
        self.stored(self.wedding).filter(key=key).update(removed=True)

    def has_changed(self) -> bool:
        """A question that is kept counts as said, changed or not: it may have moved."""
        return self.is_stored() or super().has_changed()

    @property
    def answered(self) -> str:
        """By how many weddings it is answered, in words; "" for none."""
        count = self.initial.get("count", 0)
        text = ngettext("answered by %(count)s couple", "answered by %(count)s couples", count)
        return text % {"count": count} if count else ""

    def clean_step(self) -> str:
        step = self.cleaned_data["step"]
        if step not in dict(page_choices()):
            raise forms.ValidationError(self.fields["step"].error_messages["required"])
        return step

    def clean_choices(self) -> str:
        lines = (" ".join(line.split()) for line in self.cleaned_data["choices"].splitlines())
        return "\n".join(line for line in lines if line)

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("kind") in CHOOSING and "choices" in data:
            self._check_choices(data["choices"].splitlines())
        return data

    def _check_choices(self, choices: list[str]) -> None:
        folded = [choice.casefold() for choice in choices]
        twice = next((c for c, f in zip(choices, folded, strict=True) if folded.count(f) > 1), "")
        if len(choices) < 2:
            self.add_error("choices", _("Enter at least two choices, one a line."))
        elif len(choices) > MOST_CHOICES:
            text = _("These are %(count)s choices; leave at most %(most)s.")
            self.add_error("choices", text % {"count": len(choices), "most": MOST_CHOICES})
        elif twice:
            text = _("“%(choice)s” stands there twice: leave one.")
            self.add_error("choices", text % {"choice": twice})
        elif longest := [c for c in choices if len(c) > LONGEST_CHOICE]:
            text = _("Shorten “%(choice)s…”: a choice has at most %(most)s characters.")
            words = {"choice": longest[0][:30], "most": LONGEST_CHOICE}
            self.add_error("choices", text % words)


def page_choices() -> list[tuple[str, Any]]:
    steps = [step for step in STEPS if any(part.prefix == PREFIX for part in step.parts)]
    return [(step.slug, step.title) for step in (MORE_STEP, *steps)]


class QuestionRows(OrderedRows):
    most = MOST_QUESTIONS


QUESTIONS = Part("questions", QuestionForm, _("Question"), add=_("Add a question"))
