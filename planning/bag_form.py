"""What is decided about a bag: how many of each thing go, and what is packed."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db import transaction
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.models import Wedding

from .bag_page import lines
from .compute.bag.need import frames_of
from .compute.planned import Plan
from .kit_models import BagLine, BagNote, KitItem


class NoteForm(forms.ModelForm):
    """What the day is like, and afterwards how many frames it took."""

    class Meta:
        model = BagNote
        fields = ("cold", "frames_taken", "charges_used")
        help_texts = {
            "cold": _("Batteries hold about four fifths then. Keep spare ones warm on you."),
            "frames_taken": _(
                "Afterwards, from all cards together. From your second wedding on, your own "
                "counts take the place of the usual rates."
            ),
            "charges_used": _(
                "How many were changed, with what was left in the last ones. From your second "
                "wedding on it takes the place of the maker’s figure."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("frames_taken", "charges_used"):
            field = self.fields[name]
            field.widget = forms.TextInput({"inputmode": "numeric", "autocomplete": "off"})
            field.error_messages |= words_for(field, BagNote._meta.get_field(name).validators)


class BagForm:
    """A box for each thing of the kit: how many go. Errors stand beside the box."""

    def __init__(self, wedding: Wedding, data: QueryDict | None = None) -> None:
        self.wedding, self.data = wedding, data
        note = BagNote.objects.filter(wedding=wedding).first() or BagNote(wedding=wedding)
        self.note = NoteForm(data, instance=note)
        self.rows = [self._row(line) for line in lines(wedding)]

    def _row(self, line: Any) -> dict[str, Any]:
        name = f"count-{line.item.key}"
        typed = self.data.get(name, "") if self.data is not None else str(line.count or "")
        text, error = typed.strip(), ""
        count = int(text) if text.isascii() and text.isdigit() and len(text) < 4 else 0
        if text not in ("", "on") and text != str(count):
            error = _("Enter a whole number, or nothing.")
        elif text == "on":
            count = 1
        if count > line.item.count:
            error = _("There are only %(count)s of it in your kit.") % {"count": line.item.count}
        was = self.data.get(f"was-{line.item.key}", "") if self.data is not None else line.count
        return {
            "line": line, "name": name, "typed": typed, "count": count, "error": error,
            "was": was, "is_changed": str(was) != str(count),
        }  # fmt: skip

    def is_valid(self) -> bool:
        return self.note.is_valid() and not any(row["error"] for row in self.rows)

    def errors(self) -> list[tuple[str, str]]:
        """(id of the box, message) of all that is wrong."""
        wrong = [(f"id_{row['name']}", row["error"]) for row in self.rows if row["error"]]
        fields = [(f"id_{name}", text[0]) for name, text in self.note.errors.items()]
        return wrong + fields

    @transaction.atomic
    def save(self, plan: Plan) -> None:
        """Only what this page changed: what somebody else chose meanwhile, or packed, stays.

        Where more are to go than were packed, the thing is not packed any more.
        """
        settle(self.wedding)
        changed = {row["line"].item.pk: row["count"] for row in self.rows if row["is_changed"]}
        for count in set(changed.values()):
            theirs = [pk for pk, each in changed.items() if each == count]
            here = BagLine.objects.filter(wedding=self.wedding, item__in=theirs)
            (here.filter(count__lt=count) if count else here).update(packed=False)
            here.update(count=count)
        note = {name: self.note.cleaned_data[name] for name in self.note.changed_data}
        if "frames_taken" in note:
            blocks = [block for day in plan.days for block in day.blocks]
            note["frames_expected"] = sum(frames_of(block) for block in blocks)
        BagNote.objects.update_or_create(wedding=self.wedding, defaults=note)


def settle(wedding: Wedding) -> None:
    """What is proposed becomes what goes, where nobody chose yet."""
    rows = [BagLine(wedding=wedding, item=each.item, count=each.count) for each in lines(wedding)]
    BagLine.objects.bulk_create(rows, ignore_conflicts=True)


def pack(wedding: Wedding, key: str, packed: bool) -> bool:
    """Tick one thing, alone, so that two people who pack at once undo nothing of each other.

    The first tick settles the proposal as it is shown. False where there is no such thing.
    """
    with transaction.atomic():
        if key not in KitItem.objects.values_list("key", flat=True):  # it may be any text
            return False
        settle(wedding)
        theirs = BagLine.objects.filter(wedding=wedding, item__key=key)
        return bool(theirs.update(packed=packed))
