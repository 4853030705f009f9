"""What every form of the couple has: words for its errors, and what it said when it was shown."""

from __future__ import annotations

import hashlib
import json
from datetime import date, time
from typing import Any

from django import forms
from django.db.models import Model, QuerySet
from django.forms.models import model_to_dict
from django.utils.formats import date_format, time_format
from django.utils.translation import gettext_lazy as _

from . import models as m


class CarriedField(forms.SlugField):
    """Travels with a form but is no answer, so a row with nothing else in it stays empty."""

    widget = forms.HiddenInput

    def clean(self, value: Any) -> str:
        try:
            return super().clean(value)
        except forms.ValidationError:  # forged: the row counts as a new one
            return ""

    def has_changed(self, initial: Any, data: Any) -> bool:
        return False


class AnswerForm(forms.ModelForm):
    """Answers of which both partners may have a page open.

    `was` is a digest of what was stored when the page was made. Who left the answers as they were
    undoes nothing that the other kept since; who changed them is told of it first.
    """

    was = CarriedField(max_length=16, required=False)
    carried = ("key", "was", "DELETE")
    demanded: tuple[str, ...] = ()  # not required alone, but one of them or another is

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.error_messages |= words_for(field)
            field.demanded = name in self.demanded
            if type(field.widget) in {forms.TextInput, forms.Textarea}:
                field.widget.attrs.setdefault("dir", "auto")

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> Any:
        if field_name == "was" and self.is_stored():
            return self.digest(self.initial)
        return super().get_initial_for_field(field, field_name)

    def is_stored(self) -> bool:
        return True

    def digest(self, values: dict[str, Any]) -> str:
        answers = [_plain(values.get(name)) for name in self.asked()]
        return hashlib.sha256(json.dumps(answers, default=str).encode()).hexdigest()[:16]

    def asked(self) -> list[str]:
        return [name for name in self.fields if name not in self.carried]

    def is_touched(self) -> bool:
        was = self.cleaned_data.get("was")
        return bool(self.cleaned_data) and (not was or was != self.digest(self.cleaned_data))

    def answers(self) -> dict[str, Any]:
        """What the row is saved with."""
        return {name: self.cleaned_data[name] for name in self.asked()}

    def full_clean(self) -> None:
        super().full_clean()
        if self.is_bound and self.is_stored() and self.cleaned_data and not self._errors:
            now, typed = self.digest(self.initial), self.digest(self.cleaned_data)
            if self.cleaned_data["was"] not in ("", now, typed) and now != typed:
                self._tell_of_change(now)

    def _tell_of_change(self, now: str) -> None:
        for name in self.asked():
            if _plain(self.cleaned_data[name]) != _plain(self.initial.get(name)):
                now_said = said(self.fields[name], self.initial.get(name)) or _("nothing")
                text = _("This changed after you opened the page. It now says: %(said)s")
                self.add_error(name, text % {"said": now_said})
        self.data[self.add_prefix("was")] = now  # the next time it is theirs to replace


class RowForm(AnswerForm):
    """A row of a list. `wedding` narrows choices to the couple's own days and places.

    A list may belong to something else: `belongs_to` is the model's name for what `wedding` is.
    """

    key = CarriedField(max_length=40, required=False)
    belongs_to = "wedding"
    fixed: dict[str, str] = {}  # values of the model that this form always sets
    first_rows: tuple[dict[str, str], ...] = ({},)  # what an empty list begins with

    def __init__(self, *args: Any, wedding: m.Wedding, **kwargs: Any) -> None:
        self.wedding = wedding
        super().__init__(*args, **kwargs)

    def is_stored(self) -> bool:
        return "key" in self.initial

    @classmethod
    def stored(cls, wedding: m.Wedding) -> QuerySet:
        if wedding.pk is None:
            return cls._meta.model.objects.none()
        return cls._meta.model.objects.filter(**{cls.belongs_to: wedding}, **cls.fixed)

    @classmethod
    def read(cls, row: m.Row) -> dict[str, Any]:
        return model_to_dict(row, cls._meta.fields)

    def write(self, key: str, values: dict[str, Any]) -> None:
        rows = self._meta.model.objects
        rows.update_or_create(**{self.belongs_to: self.wedding}, key=key, defaults=values)

    def remove(self, key: str) -> None:
        self.stored(self.wedding).filter(key=key).delete()

    def answers(self) -> dict[str, Any]:
        return super().answers() | self.fixed

    def validate_unique(self) -> None:
        """The key decides which row is saved; another row with it is this row."""


def words_for(field: forms.Field) -> dict[str, str]:
    """What to do, in the label's words."""
    label = {"label": field.label}
    words = {
        "required": _("%(label)s: enter something here.") % label,
        "max_length": _("Shorten this to %(limit_value)d characters; it has %(show_value)d."),
    }
    if isinstance(field, forms.ChoiceField):
        words["required"] = _("%(label)s: choose one.") % label
        words["invalid_choice"] = _("%(label)s: choose one that is in the list.") % label
    if isinstance(field, forms.EmailField):
        words["invalid"] = _("Enter an email address like name@example.org.")
    least, most = getattr(field, "min_value", None), getattr(field, "max_value", None)
    if least is not None and most is not None:
        text = _("%(label)s: enter a number from %(least)s to %(most)s.")
        text %= label | {"least": least, "most": most}
        words |= dict.fromkeys(("invalid", "min_value", "max_value"), text)
    return words


def _plain(value: Any) -> Any:
    """A value as it is before and after a trip through a browser."""
    if isinstance(value, str):
        return "\n".join(value.splitlines()).strip()
    if isinstance(value, Model):
        return value.pk
    return "" if value is None else value


def said(field: forms.Field, value: Any) -> str:
    """An answer in the words of its question; "" where there is none."""
    if value is True:
        return str(_("yes"))
    if isinstance(value, time):
        return time_format(value, "H:i")
    if isinstance(value, date):
        return date_format(value, "l j F Y")
    if isinstance(value, Model) or not value:
        return str(value or "")
    choices = dict(getattr(field, "choices", ()))
    values = value if isinstance(value, list) else [value]
    return ", ".join(str(choices.get(each, each)) for each in values)
