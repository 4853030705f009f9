"""What one wedding is not asked: pages, lists, boxes and choices that do not apply to it.

`Wedding.not_asked` holds names like "step.groups". What somebody has said all the same stays in
sight wherever it stands, and a page that was open before still keeps what is typed on it.
"""

from __future__ import annotations

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from .models import MomentKind, Use, Wedding

Names = tuple[tuple[str, Promise | str], ...]
ALWAYS = {MomentKind.OTHER, MomentKind.END}

PAGES: Names = (
    ("step.people", _("People")),
    ("step.groups", _("Group photographs")),
    ("step.photographs", _("Photographs you want")),
    ("step.pictures", _("Pictures you like")),
    ("step.sharing", _("Who may see the pictures")),
)
LISTS: Names = (
    ("list.helpers", _("Helpers who know faces")),
    ("list.contacts", _("People to ring")),
    ("list.suppliers", _("Others who work that day")),
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
IN_CHARGE = ("coordinator", "coordinator_phone", "coordinator_email")


def is_asked(wedding: Wedding, name: str) -> bool:
    return name not in wedding.not_asked


def leave_out(form: forms.BaseForm, wedding: Wedding, name: str, *fields: str) -> None:
    """Take boxes off a form, unless one of them holds something or was on the page that came."""
    here = any(form.initial.get(each) or form.add_prefix(each) in form.data for each in fields)
    if not is_asked(wedding, name) and not here:
        for each in fields:
            del form.fields[each]


def leave_out_choices(form: forms.BaseForm, wedding: Wedding, kind: str, field: str) -> None:
    """Take choices away, unless one is chosen; `kind` is what comes before the dot."""
    said = form.initial.get(field) or ()
    held = {said} if isinstance(said, str) else set(said)
    held |= set(form.data.getlist(form.add_prefix(field)) if form.data else ())
    choices = form.fields[field].choices
    form.fields[field].choices = [
        choice
        for choice in choices
        if is_asked(wedding, f"{kind}.{choice[0]}") or choice[0] in held
    ]
