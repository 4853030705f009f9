"""What is typed at the meeting: a note beside each answer, and the open points.

Two devices may have the page open: as in the questionnaire, what the other kept is taken over,
and where both changed one note `AnswerForm` asks which is to be kept.
"""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.answer_form import AnswerForm, CarriedField
from intake.models import new_key

from .meeting_models import AnswerNote, MeetingPoint

NOTE_BOX = forms.Textarea({"rows": 1, "class": "grows", "autocomplete": "off"})
INTO_SUMMARY, SETTLED = _("into the summary"), _("settled")


class KeptForm(AnswerForm):
    """A note with its two ticks."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, auto_id="%s", **kwargs)

    def is_stored(self) -> bool:
        """A note that is not there yet is an empty one; only a point can be gone."""
        return True

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        for name in {"text", "note"} & set(data):
            data[name] = "\n".join(data[name].splitlines()).strip()
        return data


class AnswerNoteForm(KeptForm):
    """`answer` is the mark of what the answer says now, `said` of what the page showed."""

    said = CarriedField(max_length=8, required=False)
    carried = (*AnswerForm.carried, "said")

    class Meta:
        model = AnswerNote
        fields = ("text", "for_couple", "settled")
        widgets = {"text": NOTE_BOX}

    def __init__(self, data: QueryDict | None, note: AnswerNote, answer: str) -> None:
        self.answer = answer
        self.reopened = note.settled and note.settled_as != answer
        if self.reopened:
            note.settled = False
        super().__init__(data, prefix=note.key, instance=note, initial={"said": answer})

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("for_couple") and not data.get("text") and "text" not in self.errors:
            self.add_error("text", _("Write what goes into the summary, or untick it."))
        newly = data.get("settled") and not self.initial.get("settled")
        if newly and data.get("said", self.answer) not in ("", self.answer):
            self.data[self.add_prefix("said")] = self.answer
            text = _("The answer changed after you opened the page. Read it, then tick it again.")
            self.add_error("settled", text)
        return data

    def is_blank(self) -> bool:
        return not any(self.answers().values())


class PointForm(KeptForm):
    """A point that is open; what the couple said stays in their words."""

    class Meta:
        model = MeetingPoint
        fields = ("text", "note", "for_couple", "settled")
        widgets = {"text": NOTE_BOX, "note": NOTE_BOX}

    def __init__(self, data: QueryDict | None, point: MeetingPoint) -> None:
        super().__init__(data, prefix=f"point.{point.key}", instance=point)
        if point.by == MeetingPoint.By.COUPLE:
            del self.fields["text"]
        # Before what the other device kept is taken over.
        self.changed_elsewhere = self.is_bound and self.shown() != self.marks(self.initial)

    def is_stored(self) -> bool:
        return self.instance.pk is not None


class NewPointForm(KeptForm):
    key = CarriedField(max_length=40, required=False)

    class Meta:
        model = MeetingPoint
        fields = ("text",)
        labels = {"text": _("Another point")}
        widgets = {"text": NOTE_BOX}

    def __init__(self, data: QueryDict | None) -> None:
        super().__init__(data, prefix="new", initial={"key": new_key()})
        self.fields["text"].required = False
