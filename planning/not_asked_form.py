"""What does not apply to one wedding: ticked, and not asked there."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from intake.listed import shared_questions
from intake.models import Wedding
from intake.not_asked import GROUPS


class NotAskedForm(forms.Form):
    """One group of boxes for each sort of thing; a tick leaves it out."""

    def __init__(self, data: Any = None, *, wedding: Wedding) -> None:
        super().__init__(data, prefix="left_out")
        self.wedding = wedding
        groups = [(name, title, names) for name, title, names in GROUPS]
        own = tuple((question.token, question.text) for question in shared_questions())
        if own:
            groups.insert(0, ("own", _("Your own questions"), own))
        for name, title, names in groups:
            self.fields[name] = forms.MultipleChoiceField(
                label=title,
                required=False,
                choices=names,
                initial=[each for each, _label in names if each in wedding.not_asked],
                widget=forms.CheckboxSelectMultiple,
            )
            self.fields[name].demanded = True  # no "(optional)" beside ticks

    def save(self) -> None:
        """A question that is put away for now keeps its tick, though it is not on the page."""
        shown = {each for field in self.fields.values() for each, _label in field.choices}
        ticked = [each for name in self.fields for each in self.cleaned_data[name]]
        kept = [each for each in self.wedding.not_asked if each not in shown]
        self.wedding.not_asked = [*kept, *ticked]
        self.wedding.save(update_fields=["not_asked"])
