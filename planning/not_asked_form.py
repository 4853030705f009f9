"""What does not apply to one wedding: ticked, and not asked there (intake/not_asked.py)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from intake.listed import shared_questions
from intake.models import MomentKind, Use, Wedding
from intake.steps import BY_SLUG

Names = tuple[tuple[str, Promise | str], ...]
ALWAYS = {MomentKind.OTHER, MomentKind.END}

PAGES: Names = tuple(
    (f"step.{slug}", BY_SLUG[slug].title)
    for slug in ("people", "groups", "photographs", "pictures", "sharing")
)
LISTS: Names = tuple(
    (f"list.{part.prefix}", part.title)
    for part in BY_SLUG["people"].parts
    if part.prefix in {"helpers", "contacts", "suppliers"}
)
BOXES: Names = (
    ("partners.word", _("What we should call you")),
    ("wedding.matters", _("What matters most to you about the day?")),
    ("places.in_charge", _("Who is in charge there, with phone and email")),
    ("places.wet_plan", _("Where to go if it rains")),
    ("places.not_allowed", _("What is not allowed")),
    ("wedding.children", _("May photographs of children be shown?")),
    ("wedding.supplier_use", _("May others who worked that day use pictures?")),
    ("wedding.gallery", _("Who may see the gallery?")),
)
MOMENTS: Names = tuple((f"moment.{kind}", kind.label) for kind in MomentKind if kind not in ALWAYS)
USES: Names = tuple((f"use.{use}", use.label) for use in Use)
GROUPS: tuple[tuple[str, Promise, Names], ...] = (
    ("pages", _("Whole pages"), PAGES),
    ("lists", _("Lists on the page “People”"), LISTS),
    ("moments", _("Things with a time"), MOMENTS),
    ("uses", _("What happens at a place"), USES),
    ("boxes", _("Single questions"), BOXES),
)


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
