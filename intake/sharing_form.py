"""Who may see the pictures: what the couple allow, and what they have not decided yet."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from . import sharing_words as words
from .answer_form import AnswerForm
from .models import Wedding
from .not_asked import leave_out

MAY_LEAVE_OUT = ("children", "gallery", "supplier_use")


def choose(choices: type, label: str, hint: str = "") -> forms.ChoiceField:
    return forms.ChoiceField(
        label=label,
        help_text=hint,
        required=False,
        choices=choices.choices,
        widget=forms.RadioSelect,
    )


class SharingForm(AnswerForm):
    demanded = ("online",)
    online = choose(
        words.Online,
        _("May we show photographs of your wedding online?"),
        _("Where we show our work. Until you say yes, we show none."),
    )
    children = choose(
        words.Children,
        _("May photographs be shown in which children can be recognised?"),
        _("Each child’s parents decide, and may say no later."),
    )
    gallery = choose(words.Gallery, _("Who may see the gallery of your photographs?"))
    supplier_use = choose(
        words.Suppliers,
        _("May others who worked that day use photographs?"),
        _("The florist for the flowers, the hall for the room."),
    )

    class Meta:
        model = Wedding
        fields = ("online", "children", "gallery", "supplier_use", "sharing_note")
        labels = {"sharing_note": _("Anything we should not show, or not yet")}
        widgets = {"sharing_note": forms.Textarea({"rows": 3})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in MAY_LEAVE_OUT:
            leave_out(self, self.instance, f"wedding.{name}", name)
