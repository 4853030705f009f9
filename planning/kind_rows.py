"""The blocks of a kind of day together: what must stand once, and what before what."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.rows import OrderedRows
from intake.steps import Part

from .compute.blocks import KINDS
from .kind_form import BlockForm

MOST_BLOCKS = 60
# The plan knows one of each: the list of groups, the sun, and the end of the work.
ONCE = {"groups", "golden", "pack"}
NO_TIME = {"groups", "golden"}  # theirs comes from the list and from the sun

BLOCKS = Part("blocks", BlockForm, gettext_lazy("Block"), add=gettext_lazy("Add a block"))


class BlockRows(OrderedRows):
    most = MOST_BLOCKS

    def clean(self) -> None:
        super().clean()
        kept = [form for _key, form in self.keyed if not self._should_delete_form(form)]
        if not kept:
            raise ValidationError(_("Leave at least one block."))
        for number, form in enumerate(kept):
            _check_alone(form)
            _check_once(form, kept[:number])
            if form.cleaned_data.get("leads"):
                _check_leads(form, kept[:number], kept[number + 1 :])


def _check_alone(form: BlockForm) -> None:
    data = form.cleaned_data
    kind, moment, leads = data.get("kind"), data.get("moment"), data.get("leads")
    if moment and (leads or kind in NO_TIME):
        form.add_error("moment", _("It takes its time from something else: choose none here."))
    if leads and kind in ONCE:
        form.add_error("leads", _("A block of this kind leads to nothing: choose none here."))


def _check_once(form: BlockForm, before: list[BlockForm]) -> None:
    kind, moment = form.cleaned_data.get("kind"), form.cleaned_data.get("moment")
    if kind in ONCE and any(other.cleaned_data.get("kind") == kind for other in before):
        text = _("A block above is “%(block)s” already; a day has one.")
        form.add_error("kind", text % {"block": _(KINDS[kind])})
    if moment and any(other.cleaned_data.get("moment") == moment for other in before):
        form.add_error("moment", _("A block above takes that time already."))


def _check_leads(form: BlockForm, before: list[BlockForm], after: list[BlockForm]) -> None:
    """What it leads to stands after it, and waits for nothing else."""
    leads = form.cleaned_data["leads"]
    block = {"block": _(KINDS[leads])}
    if any(other.cleaned_data.get("leads") == leads for other in before):
        form.add_error("leads", _("A block above ends then already."))
    elif any(_is(leads, other) for other in after):
        return
    elif any(_is(leads, other) for other in before):
        text = _("It must stand before “%(block)s”: move it earlier.")
        form.add_error("leads", text % block)
    else:
        text = _("There is no “%(block)s” here that begins by itself.")
        form.add_error("leads", text % block)


def _is(kind: str, form: BlockForm) -> bool:
    return form.cleaned_data.get("kind") == kind and not form.cleaned_data.get("leads")
