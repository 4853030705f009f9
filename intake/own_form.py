"""The studio's own questions of one page, as one more form of it."""

from __future__ import annotations

from typing import Any

from django.db.models import Q

from .answer_form import AnswerForm, CarriedField
from .models import Wedding
from .own_fields import field_for, from_stored, to_stored
from .own_models import Answer, Question

PREFIX = "own"
MORE = "more"  # the page of questions that stand on no other


def questions_of(wedding: Wedding) -> list[Question]:
    """All that a wedding is or was asked, in order: the studio's, then its own."""
    owners = Q(wedding=None) | Q(wedding=wedding) if wedding.pk else Q(wedding=None)
    return in_order(list(Question.objects.filter(owners)))


def in_order(questions: list[Question]) -> list[Question]:
    return sorted(questions, key=lambda q: (q.wedding_id is not None, q.position, q.pk))


def is_open(question: Question, wedding: Wedding) -> bool:
    """Whether a wedding is asked this now."""
    put_away = question.hidden or question.removed
    return not put_away and question.token not in wedding.not_asked


class OwnForm(AnswerForm):
    """One field for each question of the page.

    One that was put away, or moved, after the page was opened is still read: nobody loses what
    they typed. An answer to a question that was of another kind then is not shown, and stays.
    """

    was = CarriedField(max_length=20_000, required=False)
    step = MORE

    class Meta:
        model = Wedding
        fields = ()

    def __init__(self, data: Any = None, *, instance: Wedding, **kwargs: Any) -> None:
        super().__init__(data, instance=instance, **kwargs)
        here = [q for q in questions_of(instance) if self._belongs(q)]
        asked = [q for q in here if q.kind != Question.Kind.FILE]
        self.files = [q for q in here if q.kind == Question.Kind.FILE]
        kept = instance.own_answers.filter(question__in=asked) if instance.pk else ()
        values = {(a.question_id, a.kind): a.value for a in kept}
        self.questions: dict[str, Question] = {}
        for question in asked:
            name, value = name_of(question), values.get((question.pk, question.kind), "")
            self.questions[name] = question
            self.initial[name] = from_stored(question.kind, value)
            self.fields[name] = field_for(question, self.initial[name])
            self.dress(name)
            self.fields[name].demanded = question.needed

    def _belongs(self, question: Question) -> bool:
        if is_open(question, self.instance) and question.step == self.step:
            return True
        return self.add_prefix(name_of(question)) in self.data

    def file_answers(self) -> list[tuple[Question, str]]:
        """Questions answered with a file, each with what its file is called; on their own pages."""
        if not self.files or not self.instance.pk:
            return [(question, "") for question in self.files]
        kept = self.instance.own_answers.filter(question__in=self.files, kind=Question.Kind.FILE)
        names = {answer.question_id: answer.value["called"] for answer in kept}
        return [(question, names.get(question.pk, "")) for question in self.files]

    def store(self) -> None:
        before, now = self.marks(self.initial), self.marks(self.cleaned_data)
        for name, question in self.questions.items():
            if now[name] != before[name]:
                self._keep(question, self.cleaned_data[name])

    def _keep(self, question: Question, value: Any) -> None:
        mine = {"wedding": self.instance, "question": question, "kind": question.kind}
        if value in (None, "", []):
            Answer.objects.filter(**mine).delete()
        else:
            values = {"asked": question.text, "value": to_stored(value)}
            Answer.objects.update_or_create(**mine, defaults=values)


def name_of(question: Question) -> str:
    return f"q{question.pk}"


def own_form(step: str) -> type[OwnForm]:
    """The form of one page; a class, since a page's parts are made of classes."""
    return type("OwnForm", (OwnForm,), {"step": step})
