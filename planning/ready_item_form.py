"""The lines that a studio adds to every ready list, or to one wedding's."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from intake.answer_form import RowForm
from intake.models import Wedding
from intake.rows import RowSet
from intake.steps import Part
from intake.when import TimeField

from .models import ReadyItem
from .ready_models import MOST_DAYS

MOST_ITEMS = 100


class ReadyItemForm(RowForm):
    days = forms.IntegerField(
        label=_("How many days before"), min_value=0, max_value=MOST_DAYS, required=False
    )
    at = TimeField(label=_("By what time there"))

    class Meta:
        model = ReadyItem
        fields = ("key", "title", "when", "days", "at", "why")
        labels = {"when": _("By when")}
        widgets = {
            "title": forms.TextInput({"autocomplete": "off"}),
            "why": forms.TextInput({"autocomplete": "off"}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["when"].choices = ReadyItem.When.choices
        self.fields["when"].initial = ReadyItem.When.BEFORE
        self.fields["days"].help_text = _("For “days before the wedding”; else it is not used.")
        self.fields["at"].help_text = _("Six in the evening where you leave it empty.")

    @classmethod
    def stored(cls, wedding: Wedding | None) -> QuerySet:
        return ReadyItem.objects.filter(wedding=wedding)

    def write(self, key: str, values: dict[str, Any]) -> None:
        """A key of another wedding's line names none here."""
        mine = self.stored(self.wedding).filter(key=key)
        if not mine.exists() and ReadyItem.objects.filter(key=key).exists():
            ReadyItem.objects.create(wedding=self.wedding, **values)
        else:
            ReadyItem.objects.update_or_create(key=key, defaults=values | {"wedding": self.wedding})

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("when") == ReadyItem.When.BEFORE and "days" in data and data["days"] is None:
            self.add_error("days", _("How many days before the wedding? 0 is its first day."))
        elif data.get("days") is None and "days" in data:
            data["days"] = 0
        return data


class ReadyItemRows(RowSet):
    most = MOST_ITEMS


READY_ITEMS = Part("lines", ReadyItemForm, _("Line"), add=_("Add a line"))
