"""The studio's insurance as it is typed: each policy a row, and which kinds are wanted."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from intake.answer_form import RowForm
from intake.models import Wedding
from intake.rows import RowSet
from intake.steps import Part
from intake.when import DateField
from studio.models import Studio
from studio.words import calendar_date

from .compute.cover import KINDS, USUAL
from .countries import read_countries, spoken
from .models import Policy

MOST_POLICIES = 60


class PolicyForm(RowForm):
    starts = DateField(label=_("In force from"))
    ends = DateField(label=_("Until, that day included"))
    countries = forms.CharField(
        label=_("Only in these countries"),
        required=False,
        max_length=1000,
        help_text=_("With commas. Leave it empty where the policy holds everywhere."),
    )

    class Meta:
        model = Policy
        fields = ("key", "kind", "insurer", "number", "phone", "starts", "ends", "countries")
        widgets = {
            "insurer": forms.TextInput({"autocomplete": "off"}),
            "number": forms.TextInput({"autocomplete": "off"}),
            "phone": forms.TextInput({"type": "tel", "autocomplete": "off"}),
        }

    @classmethod
    def stored(cls, wedding: Wedding | None) -> QuerySet:
        return Policy.objects.all()

    @classmethod
    def read(cls, row: Policy) -> dict[str, Any]:
        return super().read(row) | {"countries": spoken(row.countries)}

    def write(self, key: str, values: dict[str, Any]) -> None:
        codes = read_countries(values.pop("countries"))
        Policy.objects.update_or_create(key=key, defaults=values | {"countries": codes})

    def clean_countries(self) -> str:
        """As they are written back, so that the same countries are no change."""
        return spoken(read_countries(self.cleaned_data["countries"]))

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        starts, ends = data.get("starts"), data.get("ends")
        if starts and ends and ends < starts:
            text = _("It ends on %(ends)s, before it begins on %(starts)s: look at both dates.")
            days = {"ends": calendar_date(ends), "starts": calendar_date(starts)}
            self.add_error("ends", text % days)
        return data


class PolicyRows(RowSet):
    most = MOST_POLICIES


class WantedForm(forms.Form):
    """Which kinds every wedding is to be insured with."""

    wanted = forms.MultipleChoiceField(
        label=_("Every wedding needs"),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("Travel and health abroad is asked for only in another country than yours."),
    )

    def __init__(self, data: Any = None) -> None:
        studio = Studio.get()
        usual = USUAL if studio.insurance is None else studio.insurance
        super().__init__(data, initial={"wanted": list(usual)})
        self.fields["wanted"].choices = Policy.Kind.choices
        self.fields["wanted"].demanded = True  # no "(optional)" beside ticks

    def save(self) -> None:
        studio = Studio.get()
        studio.insurance = [kind for kind in KINDS if kind in self.cleaned_data["wanted"]]
        studio.save(update_fields=["insurance"] if studio.pk else None)


POLICIES = Part("policies", PolicyForm, _("Policy"), add=_("Add a policy"))
