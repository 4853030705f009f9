"""The rows of one list: known by key, counted as they come, so that nothing is saved twice."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.forms.utils import ErrorDict
from django.http import QueryDict
from django.utils.functional import cached_property
from django.utils.translation import gettext as _

from .answer_form import RowForm
from .merging import as_posted, write_marks
from .models import Wedding, new_key
from .steps import Part

MOST_ROWS = 300
MOST_SENT = 2 * MOST_ROWS  # rows of one list that are read, to be told that they are too many


class RowSet(forms.BaseFormSet):
    """The rows of one list, bound to what was typed or to what is stored."""

    part: Part
    wedding: Wedding
    most = MOST_ROWS

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial = [self.form.read(row) for row in self.form.stored(self.wedding)]
        self.by_key = {row["key"]: row for row in self.initial}
        self.firsts = self.form.begins(self.wedding)
        if self.is_bound:
            self._tell_rows_apart()
            self._add_unseen()
        if not self.initial:
            self.extra = len(self.firsts)

    def _tell_rows_apart(self) -> None:
        """A key sent twice stands for two rows."""
        seen: set[str] = set()
        for number in range(int(self.data[f"{self.prefix}-TOTAL_FORMS"])):
            name = f"{self.add_prefix(number)}-key"
            key = self.data.get(name, "")
            if key and key in seen:
                self.data[name] = f"{key[:30]}-{number}"
            seen.add(key)
        self.seen = seen

    def _add_unseen(self) -> None:
        """Rows kept since the page was made, as if it had shown them."""
        for row in self.initial:
            if row["key"] in self.seen:
                continue
            number = int(self.data[f"{self.prefix}-TOTAL_FORMS"])
            form = self.form(initial=row, prefix=self.add_prefix(number), wedding=self.wedding)
            for name in form.asked():
                self.data.setlist(form.add_prefix(name), as_posted(form.fields[name], row[name]))
            self.data[form.add_prefix("key")] = row["key"]
            self.data[form.add_prefix("was")] = write_marks(form.marks(row))
            self.data[f"{self.prefix}-TOTAL_FORMS"] = str(number + 1)

    def get_form_kwargs(self, index: int | None) -> dict[str, Any]:
        """What was typed is compared with the row of its key, wherever that row is now."""
        kwargs = super().get_form_kwargs(index) | {"wedding": self.wedding}
        if index is None:
            return kwargs
        if self.is_bound:
            stored = self.by_key.get(self.data.get(f"{self.add_prefix(index)}-key", ""))
            began_empty = not self.data.get(f"{self.prefix}-0-was")
            first = self._first(index) if began_empty else {}
            return kwargs | {"initial": stored or first}
        return kwargs if self.initial else kwargs | {"initial": self._first(index)}

    def _first(self, index: int) -> dict[str, str]:
        return self.firsts[index] if index < len(self.firsts) else {}

    def add_fields(self, form: RowForm, index: int | None) -> None:
        super().add_fields(form, index)
        if index is not None:
            form.fields["key"].initial = new_key()

    @cached_property
    def keyed(self) -> list[tuple[str, RowForm]]:
        """Each row that says something, with its key."""
        said = [form for form in self.forms if form.cleaned_data]
        return [(form.cleaned_data.get("key") or new_key(), form) for form in said]

    def clean(self) -> None:
        gone = {key for key, form in self.keyed if self._should_delete_form(form)}
        for form in self.forms:
            if self._should_delete_form(form):
                form.errors.clear()
                form.ask_before_removing()
        keys = self.by_key.keys() | {key for key, _form in self.keyed}
        if not self.part.add and len(keys) > len(self.firsts):
            raise ValidationError(_("The rows of this page have changed. Open it again."))
        if len(keys - gone) > self.most:
            text = _("%(most)s rows are the most that this page keeps.")
            raise ValidationError(text % {"most": self.most})

    def save(self) -> None:
        for position, (key, form) in enumerate(self.keyed):
            if self._should_delete_form(form):
                form.remove(key)
            elif form.is_touched():
                form.write(key, form.answers() | {"position": position})


class OrderedRows(RowSet):
    """Rows that people put in an order: one that only moved says what it said."""

    def save(self) -> None:
        super().save()
        places = {key: position for position, (key, _form) in enumerate(self.keyed)}
        rows = [row for row in self.form.stored(self.wedding) if row.key in places]
        for row in rows:
            row.position = places[row.key]
        self.form._meta.model.objects.bulk_update(rows, ["position"])


def rows_of(
    part: Part, wedding: Wedding, data: QueryDict | None, rows: type[RowSet] = RowSet
) -> RowSet:
    kind = forms.formset_factory(
        part.form,
        formset=rows,
        extra=0,
        can_delete=bool(part.add),
        max_num=MOST_ROWS,
        absolute_max=MOST_SENT,
    )
    kind.part, kind.wedding = part, wedding
    kind.most = part.form.most_rows or rows.most
    return kind(data, prefix=part.prefix)


def quiet(form: forms.BaseForm) -> forms.BaseForm:
    """What was typed without complaints: nobody has asked to save it yet."""
    form._errors, form.cleaned_data = ErrorDict(), {}
    return form


def quiet_rows(rows: RowSet) -> RowSet:
    for form in rows.forms:
        quiet(form)
    rows._errors, rows._non_form_errors = [], rows.error_class()
    return rows


def typed(data: QueryDict, prefixes: list[str]) -> QueryDict:
    """What somebody typed: no characters that nobody can type, and as many rows as there are.

    The counts in a form may be missing, old or forged; the rows themselves are what counts.
    """
    clean = QueryDict(mutable=True)
    row = re.compile(rf"({'|'.join(prefixes)})-([0-9]{{1,4}})-(\w+)") if prefixes else None
    found = {name: match for name in data if row and (match := row.fullmatch(name))}
    count: Counter[str] = Counter()
    numbers: dict[tuple[str, int], int] = {}  # row by row without gaps: each row costs a form
    for prefix, number in sorted({(m[1], int(m[2])) for m in found.values()}):
        numbers[prefix, number] = count[prefix]
        count[prefix] += 1
    for name, values in data.lists():
        new = name
        if match := found.get(name):
            row_number = numbers[match[1], int(match[2])]
            if row_number >= MOST_SENT:
                continue  # no page of ours sends so many
            new = f"{match[1]}-{row_number}-{match[3]}"
        clean.setlist(new, [_writable(value) for value in values])
    for prefix in prefixes:
        clean[f"{prefix}-TOTAL_FORMS"] = str(min(count[prefix], MOST_SENT))
        clean[f"{prefix}-INITIAL_FORMS"] = "0"
    return clean


def _writable(text: str) -> str:
    """Without NUL, control characters and noncharacters, which paper and calendars cannot hold."""
    return text if text.isprintable() else "".join(c for c in text if not _is_noise(c))


def _is_noise(c: str) -> bool:
    if unicodedata.category(c) == "Cc":
        return c not in "\t\r\n"
    return ord(c) & 0xFFFE == 0xFFFE or 0xFDD0 <= ord(c) <= 0xFDEF


def with_one_more(data: QueryDict, prefix: str) -> QueryDict:
    """The same typing with one more empty row in a list."""
    data = typed(data, [prefix])
    count = int(data[f"{prefix}-TOTAL_FORMS"])
    if count < MOST_ROWS:
        data[f"{prefix}-TOTAL_FORMS"] = str(count + 1)
        data[f"{prefix}-{count}-key"] = new_key()
    return data


def with_row_moved(data: QueryDict, prefix: str, origin: int, to: int) -> QueryDict:
    """The same typing with one row of a list elsewhere in it."""
    data = typed(data, [prefix])
    order = list(range(int(data[f"{prefix}-TOTAL_FORMS"])))
    if origin not in order or to not in order:
        return data
    order.insert(to, order.pop(origin))
    places = {str(old): new for new, old in enumerate(order)}
    row = re.compile(rf"{prefix}-([0-9]+)-(\w+)")
    moved = QueryDict(mutable=True)
    for name, values in data.lists():
        match = row.fullmatch(name)
        new = f"{prefix}-{places[match[1]]}-{match[2]}" if match else name
        moved.setlist(new, values)
    return moved
