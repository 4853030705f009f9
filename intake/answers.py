"""One step of the questionnaire as forms: shown, kept as a draft, or saved whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from django import forms
from django.db import transaction
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _

from .answer_form import AnswerForm
from .drafts import draft_data, sheets_of, take_away
from .models import StepState, Wedding
from .not_asked import is_asked
from .rows import RowSet, quiet, quiet_rows, rows_of, typed
from .steps import Part, Step


class Answers:
    """All forms of one step, bound to what was posted, to a draft, or to what is stored."""

    def __init__(self, step: Step, wedding: Wedding, data: QueryDict | None = None) -> None:
        self.step, self.wedding = step, wedding
        parts = parts_for(step, wedding, data or {})
        lists = [part.prefix for part in parts if part.rows]
        self.data = None if data is None else typed(data, lists)
        self.posted = self.data and self.data.copy()  # forms write what they merge into their data
        self.parts = [
            (part, rows_of(part, wedding, self.data) if part.rows else self._form(part))
            for part in parts
        ]

    def _form(self, part: Part) -> AnswerForm:
        return part.form(self.data, prefix=part.prefix, instance=self.wedding)

    def is_valid(self) -> bool:
        return not self.errors()

    @transaction.atomic
    def save(self) -> None:
        for part, form in self.parts:
            if part.rows:
                form.save()
            elif form.is_touched():
                form.store()
        StepState.objects.update_or_create(
            wedding=self.wedding, slug=self.step.slug, defaults={"saved_at": timezone.now()}
        )

    def forms(self) -> list[AnswerForm]:
        rows = (form.forms if part.rows else [form] for part, form in self.parts)
        return [form for forms in rows for form in forms]

    def is_news(self) -> bool:
        """Whether anything that was typed is not kept yet."""
        return any(form.is_news() for form in self.forms())

    def taken(self) -> list[str]:
        """The labels of answers that the other changed meanwhile and that were kept so."""
        found = [form.fields[name].label for form in self.forms() for name in form.taken]
        return list(dict.fromkeys(str(label) for label in found))

    def brought_back(self) -> list[str]:
        """Rows that the other removed meanwhile and that are kept, since they were changed here."""
        gone = [form for form in self.forms() if form.shown() and not form.is_stored()]
        return [form.heading() for form in gone if form.is_touched() and not form.is_removed()]

    def quiet(self) -> Answers:
        """Show what was typed without complaints: nobody has asked to save it yet.

        What the other kept meanwhile is taken over all the same, and a clash is shown.
        """
        self.errors()
        for part, form in self.parts:
            quiet_rows(form) if part.rows else quiet(form)
        return self

    def errors(self) -> list[tuple[str, str]]:
        """Every error as (id of its field, words), for the summary at the top."""
        return [error for part, form in self.parts for error in errors_of(form, str(part.one))]


def parts_for(step: Step, wedding: Wedding, data: Mapping[str, object]) -> list[Part]:
    """A step's parts without those that do not apply and of which nothing is kept or typed."""

    def is_there(part: Part) -> bool:
        typed_in = any(name.startswith(f"{part.prefix}-") for name in data)
        return typed_in or part.form.stored(wedding).exists()

    return [
        part
        for part in step.parts
        if not part.rows or is_asked(wedding, f"list.{part.prefix}") or is_there(part)
    ]


def errors_of(form: forms.BaseForm | RowSet, one: str = "") -> Iterator[tuple[str, str]]:
    """The errors of a form or of rows as (id of the field, words); `one` names a row."""
    if isinstance(form, RowSet):
        yield from (("", message) for message in form.non_form_errors())
        for number, row in enumerate(form.forms, 1):
            words = (
                _("%(row)s %(number)s. %(error)s") if one and len(form.forms) > 1 else "%(error)s"
            )
            for target, message in errors_of(row):
                yield target, words % {"row": one, "number": number, "error": message}
        return
    for name, found in form.errors.items():
        field = form[name] if name in form.fields else None
        target = field.id_for_label if field else ""
        if field and not target:  # a group of boxes: its first box
            target = f"{field.auto_id}_0"
        yield from ((target, message) for message in found)


def forget_kept(step: Step, wedding: Wedding) -> None:
    """Take away the sheets that say nothing any more that is not kept.

    They are read before anybody else has to wait: each is a page's worth of forms.
    """
    wedding = Wedding.objects.get(pk=wedding.pk)
    sheets = sheets_of(wedding.steps.filter(slug=step.slug).first())
    kept = [s for s in sheets if not Answers(step, wedding, draft_data(s.typed)).is_news()]
    if kept:
        take_away(wedding, step.slug, {sheet.mark for sheet in kept})
