"""One block of a kind of day, and the kind's own name, as the studio types them."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from django import forms
from django.forms.utils import flatatt
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from intake.answer_form import AnswerForm, RowForm
from intake.models import MomentKind

from .brief_kinds import as_template
from .compute.blocks import KINDS
from .kind_words import PLACES, words_of
from .models import KindBlock, KindOfDay

MOST_MINUTES = 1440
THREE = ("least", "likely", "most")
DELAY, WET = tuple(f"delay_{name}" for name in THREE), tuple(f"wet_{name}" for name in THREE)
# What groups take comes from the list of groups, whatever was typed beside them.
COMPUTED = dict.fromkeys(THREE, 0) | dict.fromkeys(("short", *DELAY, *WET))
NO_MOMENTS = {MomentKind.END, MomentKind.OTHER}
MOMENTS = [("", _("none")), *((v, label) for v, label in MomentKind.choices if v not in NO_MOMENTS)]
# Golden light begins when the sun says so, and there may be several other things.
NOT_LED_TO = {"golden", "other"}
LED_TO = [("", _("none")), *((k, _(title)) for k, title in KINDS.items() if k not in NOT_LED_TO)]


class PlainSelect(forms.Select):
    """A choice drawn at once; a template for each option would take most of the page's time."""

    def render(self, name: str, value: Any, attrs: Any = None, renderer: Any = None) -> SafeString:
        lines = {
            False: '<option value="{}">{}</option>',
            True: '<option value="{}" selected>{}</option>',
        }
        options = (format_html(lines[key == value], key, label) for key, label in self.choices)
        attributes = flatatt(self.build_attrs(self.attrs, attrs) | {"name": name})
        return format_html("<select{}>{}</select>", attributes, SafeString("".join(options)))


def choice(label: str, choices: list, **more: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, choices=choices, widget=PlainSelect, **more)


def minutes(label: str, least: int = 0) -> forms.IntegerField:
    """A box for whole minutes that sends what was typed, even where it is no number."""
    box = forms.TextInput({"inputmode": "numeric", "autocomplete": "off"})
    field = forms.IntegerField(
        label=label, required=False, min_value=least, max_value=MOST_MINUTES, widget=box
    )
    field.whole_minutes = True
    return field


class KindForm(AnswerForm):
    class Meta:
        model = KindOfDay
        fields = ("title",)
        labels = {"title": _("Name of this kind of day")}


class BlockForm(RowForm):
    """`wedding` is the kind of day that the block belongs to."""

    belongs_to = "kind_of_day"
    demanded = THREE
    more = ("use", "moment", "leads", "fills", "once", "short", "droppable", "importance",
            *DELAY, "movable", *WET, "wet_left_out")  # fmt: skip

    kind = choice(_("What it is"), [(k, _(title)) for k, title in KINDS.items()], initial="other")
    least, likely, most = minutes(_("Least")), minutes(_("Likely"), 1), minutes(_("Most"), 1)
    use = choice(_("Place"), list(PLACES.items()), initial="previous")
    moment = choice(_("Takes the couple’s time for"), MOMENTS, required=False)
    leads = choice(_("Ends when this begins"), LED_TO, required=False)
    short = minutes(_("Short form, minutes"), 1)
    importance = forms.IntegerField(
        label=_("How much it matters, 1 to 10"),
        min_value=1,
        max_value=10,
        initial=5,
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )
    delay_least, delay_likely = minutes(_("Late, least")), minutes(_("Late, likely"))
    delay_most = minutes(_("Late, most"))
    wet_least, wet_likely = minutes(_("In the rain, least")), minutes(_("In the rain, likely"), 1)
    wet_most = minutes(_("In the rain, most"), 1)

    class Meta:
        model = KindBlock
        fields = ("key", "title", "kind", *THREE, "use", "moment", "leads", "fills", "once",
                  "short", "droppable", "importance", *DELAY, "movable", *WET,
                  "wet_left_out")  # fmt: skip
        labels = {
            "title": _("Name"),
            "fills": _("Takes what time is left, and gives way"),
            "once": _("On the main day only, where there are several"),
            "droppable": _("May be dropped when the day runs late"),
            "movable": _("Where its time is fixed, it can be asked to move"),
            "wet_left_out": _("Left out when it rains"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        text = _("%(label)s: enter whole minutes from %(least)s to %(most)s.")
        for field in self.fields.values():
            if hasattr(field, "whole_minutes"):
                words = {"label": field.label, "least": field.min_value, "most": field.max_value}
                wrong = dict.fromkeys(("invalid", "min_value", "max_value"), text % words)
                field.error_messages |= wrong

    @classmethod
    def begins_with(cls) -> dict[str, str]:
        """What a new row sends before anything is typed in it."""
        said = {name: field.initial for name, field in cls.base_fields.items() if field.initial}
        return {name: "on" if value is True else str(value) for name, value in said.items()}

    def has_changed(self) -> bool:
        """A row that is kept counts as said, changed or not: its neighbours rest on it."""
        return self.is_stored() or super().has_changed()

    @property
    def computes(self) -> bool:
        """Whether its minutes are not typed; what was typed all the same stays in sight."""
        return self["kind"].value() == "groups" and not any(self[name].value() for name in THREE)

    @property
    def more_is_wrong(self) -> bool:
        return any(name in self.errors for name in self.more)

    @property
    def words(self) -> list[str]:
        """What is kept of the rest, in words."""
        if not self.is_stored():
            return []
        return words_of(as_template(KindBlock(**{n: self.initial[n] for n in self.asked()})))

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("kind") == "groups":
            for name in set(COMPUTED) & set(self.errors):
                del self.errors[name]
            return data | COMPUTED
        missing = [n for n in THREE if data.get(n) is None and n not in self.errors]
        for name in missing:
            self.add_error(name, self.fields[name].error_messages["required"])
        for three in (THREE, DELAY, WET):
            self._check_three(*three)
        short, likely = data.get("short"), data.get("likely")
        if short and likely and short >= likely:
            text = _("Short form: enter less than the likely %(likely)s minutes.")
            self.add_error("short", text % {"likely": likely})
        return data

    def _check_three(self, *names: str) -> None:
        """All three or none, and none less than the one before it."""
        values = [self.cleaned_data.get(name) for name in names]
        known = {
            name: value for name, value in zip(names, values, strict=True) if value is not None
        }
        for name in names:
            if known and name not in known and name not in self.errors:
                text = _("%(label)s: enter something here, or leave all three empty.")
                self.add_error(name, text % {"label": self.fields[name].label})
        pairs = list(known.items())
        for (low, less), (high, more) in pairwise(pairs):
            if less > more:
                text = _("%(high)s: enter no less than “%(low)s”, which is %(minutes)s.")
                labels = {"high": self.fields[high].label, "low": self.fields[low].label}
                self.add_error(high, text % (labels | {"minutes": less}))
