"""One step of the questionnaire as forms: shown, kept as a draft, or saved whole."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.db import transaction
from django.forms.utils import ErrorDict
from django.http import QueryDict
from django.utils import timezone

from .models import StepState, Wedding, new_key
from .steps import Part, Step

MOST_ROWS = 300


class RowSet(forms.BaseFormSet):
    """The rows of one list. Rows are known by key, so saving twice changes nothing twice."""

    part: Part
    wedding: Wedding

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial = [self.form.read(row) for row in self.form.stored(self.wedding)]
        self.by_key = {row["key"]: row for row in self.initial}
        if not self.initial:
            self.extra = len(self.form.first_rows)

    def get_form_kwargs(self, index: int | None) -> dict[str, Any]:
        """What was posted is compared with the row of its key, wherever that row is now."""
        kwargs = super().get_form_kwargs(index) | {"wedding": self.wedding}
        if index is not None and not self.is_bound and not self.initial:
            kwargs["initial"] = self.form.first_rows[index]
        if index is not None and self.is_bound:
            key = self.data.get(f"{self.add_prefix(index)}-key", "")
            kwargs["initial"] = self.by_key.get(key, {})
        return kwargs

    def add_fields(self, form: forms.Form, index: int | None) -> None:
        super().add_fields(form, index)
        if index is not None:
            form.fields["key"].initial = new_key()

    def save(self) -> None:
        for position, form in enumerate(self.forms):
            data = dict(form.cleaned_data)
            gone, key = data.pop("DELETE", False), data.pop("key", "") or new_key()
            if gone:
                form.remove(key)
            elif data:
                form.write(key, data | form.always() | {"position": position})


def rows_of(part: Part, wedding: Wedding, data: QueryDict | None) -> RowSet:
    kind = forms.formset_factory(
        part.form,
        formset=RowSet,
        extra=0,
        can_delete=bool(part.add),
        max_num=MOST_ROWS,
        validate_max=True,
        absolute_max=MOST_ROWS + 200,
    )
    kind.part, kind.wedding = part, wedding
    return kind(data, prefix=part.prefix)


class Answers:
    """All forms of one step, bound to what was posted, to a draft, or to what is stored."""

    def __init__(self, step: Step, wedding: Wedding, data: QueryDict | None = None) -> None:
        self.step, self.wedding, self.data = step, wedding, data
        self.parts = [
            (part, rows_of(part, wedding, data) if part.rows else self._form(part))
            for part in step.parts
        ]

    def _form(self, part: Part) -> forms.ModelForm:
        return part.form(self.data, prefix=part.prefix, instance=self.wedding)

    def is_valid(self) -> bool:
        return all(form.is_valid() for _, form in self.parts)  # every one, for its errors

    @transaction.atomic
    def save(self) -> None:
        for part, form in self.parts:
            if part.rows:
                form.save()
            else:  # only these fields: the rest of the row may have changed meanwhile
                Wedding.objects.filter(pk=self.wedding.pk).update(**form.cleaned_data)
        self._remember(saved_at=timezone.now(), draft=None)

    def _remember(self, **values: Any) -> None:
        StepState.objects.update_or_create(
            wedding=self.wedding, slug=self.step.slug, defaults=values
        )

    def keep_draft(self) -> None:
        """Keep what was typed although it cannot be saved yet."""
        typed = {
            name: [value.replace("\0", "") for value in values]
            for name, values in self.data.lists()
            if name not in {"csrfmiddlewaretoken", "do"}
        }
        self._remember(draft=typed)

    def quiet(self) -> Answers:
        """Show what was typed without complaints: nobody has asked to save it yet."""
        for part, form in self.parts:
            quiet_rows(form) if part.rows else quiet(form)
        return self

    def errors(self) -> list[tuple[str, str]]:
        """Every error as (id of its field, words), for the summary at the top."""
        return [error for _, form in self.parts for error in errors_of(form)]


def errors_of(form: forms.BaseForm | RowSet) -> Iterator[tuple[str, str]]:
    """The errors of a form or of rows as (id of the field, words)."""
    if isinstance(form, RowSet):
        for row in form.forms:
            yield from errors_of(row)
        yield from (("", message) for message in form.non_form_errors())
        return
    for name, found in form.errors.items():
        field = form[name] if name in form.fields else None
        target = field.id_for_label if field else ""
        if field and not target:  # a group of boxes: its first box
            target = f"{field.auto_id}_0"
        yield from ((target, message) for message in found)


def quiet(form: forms.BaseForm) -> forms.BaseForm:
    form._errors, form.cleaned_data = ErrorDict(), {}
    return form


def quiet_rows(rows: RowSet) -> RowSet:
    for form in rows.forms:
        quiet(form)
    rows._errors, rows._non_form_errors = [], rows.error_class()
    return rows


def draft_data(draft: dict[str, list[str]]) -> QueryDict:
    data = QueryDict(mutable=True)
    for name, values in draft.items():
        data.setlist(name, values)
    return data


def with_one_more(data: QueryDict, prefix: str) -> QueryDict:
    """The same typing with one more empty row in a list."""
    data = data.copy()
    total = data.get(f"{prefix}-TOTAL_FORMS", "0")
    count = min(int(total), MOST_ROWS) if total.isdecimal() and len(total) < 9 else 0
    data[f"{prefix}-TOTAL_FORMS"] = str(count + 1)
    data[f"{prefix}-{count}-key"] = new_key()
    return data
