"""What the couple answer to the summary: a name that confirms it, or what is not right."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.models import new_key

from .agreements import NEWER
from .meeting_models import MOST_LETTERS, Agreement


class ReplyForm(forms.Form):
    """One form with two buttons, so that neither loses what was typed for the other.

    `number` is the version that the page showed; `key` makes a thing said twice one thing.
    """

    name = forms.CharField(
        label=_("Your full name"),
        max_length=120,
        required=False,
        widget=forms.TextInput({"autocomplete": "name", "dir": "auto"}),
    )
    text = forms.CharField(
        label=_("What is not right?"),
        max_length=MOST_LETTERS,
        required=False,
        widget=forms.Textarea({"rows": 4, "dir": "auto"}),
    )
    number = forms.CharField(max_length=9, required=False, widget=forms.HiddenInput)
    key = forms.SlugField(max_length=40, required=False, widget=forms.HiddenInput)

    def __init__(
        self,
        data: Any = None,
        newest: Agreement | None = None,
        typed_before: Mapping[str, str] = MappingProxyType({}),
    ) -> None:
        before = {name: typed_before.get(name, "") for name in ("name", "text")}
        super().__init__(data, initial=before | {"key": new_key()})
        self.newest = newest
        for name in ("name", "text"):
            field = self.fields[name]
            field.error_messages |= words_for(field)
            field.demanded = True  # each by its own button

    @property
    def confirms(self) -> bool:
        return self.data.get("do") == "confirm"

    def clean_text(self) -> str:
        return "\n".join(self.cleaned_data["text"].splitlines())

    def clean_key(self) -> str:
        return self.cleaned_data["key"] or new_key()

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if self.newest is None or data.get("number") != str(self.newest.number):
            raise forms.ValidationError(NEWER)
        if not self.confirms:
            if not data.get("text") and "text" not in self.errors:
                self.add_error("text", _("Write what is not right, then send it."))
            return data
        if not data.get("name") and "name" not in self.errors:
            self.add_error("name", _("Enter your full name, then confirm."))
        if data.get("text"):
            text = _("Something stands here. Send it, or empty the box before you confirm.")
            self.add_error("text", text)
        return data
