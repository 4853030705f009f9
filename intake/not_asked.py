"""What one wedding is not asked: pages, lists, boxes and choices that do not apply to it.

`Wedding.not_asked` holds names like "step.groups". What somebody has said all the same stays in
sight wherever it stands, and a page that was open before still keeps what is typed on it.
"""

from __future__ import annotations

from django import forms

from .models import Wedding

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
