"""The word that has to be typed before a wedding is erased."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext as _

from intake.models import Wedding


class EraseForm(forms.Form):
    typed = forms.CharField(
        max_length=200,
        widget=forms.TextInput({"autocomplete": "off", "spellcheck": "false"}),
    )

    def __init__(self, *args: object, wedding: Wedding, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        self.wedding = wedding
        label = _("Type %(word)s to erase it for good")
        self.fields["typed"].label = label % {"word": wedding.public_id}
        self.fields["typed"].error_messages["required"] = self._refusal()

    def clean_typed(self) -> str:
        typed = self.cleaned_data["typed"].strip().casefold()
        if typed != self.wedding.public_id.casefold():
            raise forms.ValidationError(self._refusal())
        return typed

    def _refusal(self) -> str:
        words = _("Nothing was erased. To erase it, type %(word)s, and nothing else.")
        return words % {"word": self.wedding.public_id}
