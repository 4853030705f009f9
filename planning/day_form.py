"""What the photographer settles about a block, and about a day as a whole."""

from __future__ import annotations

from datetime import time
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.models import Wedding
from intake.when import TimeField

from .compute.clock import SMALL_HOURS
from .compute.network import Block as Asked
from .models import BlockDecision, DayDecision

OWN_KINDS = (
    ("other", _("Something else")),
    ("rest", _("Eat, drink, sit down")),
    ("ready", _("Getting ready")),
    ("portraits", _("Portraits of the two")),
    ("details", _("Details, the room")),
    ("change", _("Change of clothes")),
)
USUAL = (("", _("as usual")), ("true", _("yes")), ("false", _("no")))
MINUTES = ("least", "likely", "most")
WET = ("wet_least", "wet_likely", "wet_most")


class YesNoField(forms.NullBooleanField):
    """Yes, no, or what the template says."""

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.NullBooleanSelect()
        widget.choices = USUAL
        super().__init__(required=False, widget=widget, **kwargs)


class BlockForm(forms.ModelForm):
    """Decisions about one block; an empty box leaves what the template or the couple say."""

    at = TimeField(label=_("Fixed at"))
    opens = TimeField(label=_("Not before"))
    closes = TimeField(label=_("Done by"))
    wished = TimeField(label=_("About"), help_text=_("Kept where the day allows."))
    droppable = YesNoField(label=_("May be left out when it is late"))
    movable = YesNoField(label=_("Its fixed time can be asked to move"))

    class Meta:
        model = BlockDecision
        fields = (
            "title",
            *MINUTES,
            "at",
            "loose",
            "wished",
            "opens",
            "closes",
            "place",
            "who",
            "short",
            "droppable",
            "importance",
            "movable",
            *WET,
            "wet_place",
            "wet_left_out",
        )

    def __init__(
        self, *args: Any, wedding: Wedding, asked: Asked | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.asked = asked
        for name in ("place", "wet_place"):
            self.fields[name].queryset = wedding.places.all()
            self.fields[name].empty_label = _("as usual")
        self.fields["who"].choices = [("", _("me")), *BlockDecision.Who.choices[1:]]
        for name in (*MINUTES, *WET, "short", "importance"):
            self.fields[name].widget = forms.TextInput({"inputmode": "numeric"})
        for field in self.fields.values():
            field.error_messages |= words_for(field)
            field.widget.attrs.setdefault("autocomplete", "off")
        if asked is not None:
            self._say_what_is(asked)

    def _say_what_is(self, asked: Asked) -> None:
        """What holds without a decision stands in the empty boxes."""
        usual = {
            "least": asked.law.least,
            "likely": asked.law.likely,
            "most": asked.law.most,
            "short": asked.short,
            "importance": asked.importance,
        }
        for name, value in usual.items():
            if value is not None:
                self.fields[name].widget.attrs["placeholder"] = f"{value:.0f}"

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        self._three(data, MINUTES)
        self._three(data, WET)
        self._times(data)
        likely = data.get("likely") or (self.asked and self.asked.law.likely)
        if data.get("short") and likely and data["short"] >= likely:
            words = _("The short form must be shorter than the likely %(n)d minutes.")
            self.add_error("short", forms.ValidationError(words, params={"n": likely}))
        return data

    def _three(self, data: dict[str, Any], names: tuple[str, str, str]) -> None:
        """Least, likely and most: the likely ones alone are enough."""
        least, likely, most = (data.get(name) for name in names)
        if least is None and likely is None and most is None:
            return
        if names == MINUTES and self.asked and likely is None:
            likely = round(self.asked.law.likely)
        if likely is None:
            if not any(name in self.errors for name in names):
                self.add_error(names[1], _("Enter the likely minutes too."))
            return
        if likely == 0:
            words = _("A block of no minutes is none: leave it out instead.")
            self.add_error(names[1], words)
        known = self.asked.law if names == MINUTES and self.asked else None
        if least is None:
            least = min(likely, round(known.least)) if known else likely
        elif least > likely:
            self.add_error(names[0], _("The least cannot be more than the likely minutes."))
        if most is None:
            most = max(likely, round(known.most)) if known else likely
        elif most < likely:
            self.add_error(names[2], _("The most cannot be less than the likely minutes."))
        data |= dict(zip(names, (least, likely, most), strict=True))

    def _times(self, data: dict[str, Any]) -> None:
        opens, closes, at = data.get("opens"), data.get("closes"), data.get("at")
        if opens and closes and not _later(closes, opens):
            self.add_error("closes", _("This ends before it starts."))
        elif at and ((opens and _later(opens, at)) or (closes and not _later(closes, at))):
            self.add_error("at", _("The fixed time is outside “not before” and “done by”."))
        if at:
            data |= {"wished": None, "loose": False}


def _later(one: time, other: time) -> bool:
    """Whether a time comes after another of the same day, the small hours being its night."""
    return _of_day(one) > _of_day(other)


def _of_day(at: time) -> tuple[bool, time]:
    return at < SMALL_HOURS, at


class OwnBlockForm(forms.Form):
    """A block that is the photographer's own idea."""

    kind = forms.ChoiceField(label=_("What kind"), choices=OWN_KINDS)
    title = forms.CharField(label=_("What"), max_length=80, required=False)
    likely = forms.IntegerField(
        label=_("Minutes"),
        min_value=1,
        max_value=1440,
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )
    follows = forms.ChoiceField(label=_("After"), required=False)

    def __init__(self, *args: Any, after: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["follows"].choices = after
        for field in self.fields.values():
            field.error_messages |= words_for(field)


class DayForm(forms.ModelForm):
    """What is wanted of the day as a whole."""

    class Meta:
        model = DayDecision
        fields = ("wanted", "notice")
        widgets = dict.fromkeys(fields, forms.TextInput({"inputmode": "numeric"}))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.error_messages |= words_for(field)
