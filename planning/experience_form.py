"""Weddings beside another photographer, as a newcomer notes them."""

from __future__ import annotations

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from intake.answer_form import RowForm
from intake.models import Wedding
from intake.rows import RowSet
from intake.steps import Part
from intake.when import DateField

from .models import Experience

MOST_EXPERIENCES = 200


class ExperienceForm(RowForm):
    on = DateField(label=_("Date"))

    class Meta:
        model = Experience
        fields = ("key", "on", "role", "who", "beside", "learnt")
        widgets = {
            "who": forms.TextInput({"autocomplete": "off"}),
            "beside": forms.TextInput({"autocomplete": "off"}),
            "learnt": forms.Textarea({"rows": 3}),
        }

    @classmethod
    def stored(cls, wedding: Wedding | None) -> QuerySet:
        return Experience.objects.all()

    def write(self, key: str, values: dict[str, object]) -> None:
        Experience.objects.update_or_create(key=key, defaults=values)


class ExperienceRows(RowSet):
    most = MOST_EXPERIENCES


EXPERIENCES = Part("experience", ExperienceForm, _("Wedding"), add=_("Add a wedding"))
