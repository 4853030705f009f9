"""What is typed about one thing of the kit: only what matters of its kind."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Sum
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.own_fields import with_stop
from intake.when import DateField

from .glyphs import is_seen
from .kit_models import KitItem

MOST = 500  # things in all
BEGINS = ("title", "count")
ENDS = ("carried", "owner", "owner_from", "had_from", "back_by")
OF_KIND = {
    "body": ("mount", "card_form", "slots", "second_form", "power", "raw_mb", "shots"),
    "lens": ("mount", "wide", "long", "aperture"),
    "flash": ("power",),
    "card": ("card_form", "gb", "speed"),
    "battery": ("power", "is_old"),
    "charger": ("power",),
    "reader": ("card_form", "speed"),
    "drive": ("gb", "speed"),
    "thing": (),
}
NEEDED = {
    "body": ("mount", "card_form", "power"),
    "lens": ("mount", "wide", "long"),
    "card": ("card_form", "gb"),
    "battery": ("power",),
    "charger": ("power",),
    "reader": ("card_form",),
}
HINTS = {
    "mount": _("In your own words; a lens and a body fit where these are the same."),
    "card_form": _("In your own words, for example SD; what fits has the same."),
    "second_form": _("Only where it takes another than the first; empty: the same."),
    "power": _("In your own words; what fits has the same. Empty where it has its own."),
    "raw_mb": _("As a typical one of yours takes. It decides how many cards the day needs."),
    "shots": _("The maker’s figure by the viewfinder; a severe routine, so often passed."),
    "wide": _("As on a full-frame camera; the same twice where it does not zoom."),
    "aperture": _("The smallest number, for example 2.8."),
    "speed": _("What it surely writes or reads, not the largest figure on the box."),
    "gb": _("For a computer, what is free. Empty: surely enough."),
    "carried": _("Which bag or pocket. What travels together is lost together."),
    "had_from": _("Only for what is hired or borrowed."),
}


# Boxes that propose what was typed before, and the words of which box.
KNOWN = {
    "mount": "mount", "card_form": "card_form", "second_form": "card_form", "power": "power",
    "carried": "carried",
}  # fmt: skip
SEVERAL = {
    ("reader", "card_form"): _(
        "All that it takes, with commas between: SD, CF. A camera’s own cable is one too."
    ),
    ("charger", "power"): _("All that it charges, with commas between."),
}


class FractionField(forms.FloatField):
    """A number, its fraction after a stop or a comma."""

    def to_python(self, value: Any) -> float | None:
        return super().to_python(with_stop(value))


class KitForm(forms.ModelForm):
    """What the page showed goes along hidden, so that only what was changed on it is kept."""

    had_from = DateField(label=_("Yours from"), required=False)
    back_by = DateField(label=_("Back by"), required=False)

    class Meta:
        model = KitItem
        fields = (
            "title", "count", "mount", "card_form", "slots", "second_form", "power", "raw_mb",
            "shots", "wide", "long", "aperture", "gb", "speed", "is_old", "carried", "owner",
            "owner_from", "had_from", "back_by",
        )  # fmt: skip
        field_classes = dict.fromkeys(
            ("raw_mb", "wide", "long", "aperture", "gb", "speed"), FractionField
        )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind = self.instance.kind
        for name, value in self.initial.items():
            if isinstance(value, float) and value.is_integer():
                self.initial[name] = int(value)  # 30, not 30.0
        order = [*BEGINS, *OF_KIND[kind], *ENDS]
        self.fields = {name: self.fields[name] for name in order}
        for name, field in self.fields.items():
            field.required = field.required or name in NEEDED.get(kind, ())
            field.help_text = field.help_text or self._hint(name)
            field.error_messages |= words_for(field, KitItem._meta.get_field(name).validators)
            if isinstance(field, (forms.FloatField, forms.IntegerField)):
                field.widget = forms.TextInput({"inputmode": "decimal", "autocomplete": "off"})
            for attribute, value in (("autocomplete", "off"), ("spellcheck", "false")):
                field.widget.attrs.setdefault(attribute, value)
            if name in KNOWN:
                field.widget.attrs["list"] = f"known-{KNOWN[name]}"

    def _hint(self, name: str) -> str:
        if name == "gb" and self.instance.kind == "card":
            return ""
        if (self.instance.kind, name) in SEVERAL:
            return SEVERAL[self.instance.kind, name]
        return HINTS.get(name, "")

    def known(self) -> dict[str, list[str]]:
        """Words typed before for what fits what, so that they are typed alike."""
        words: dict[str, set[str]] = {KNOWN[name]: set() for name in self.fields if name in KNOWN}
        for row in KitItem.objects.values(*KNOWN):
            for name, text in row.items():
                if KNOWN[name] in words:
                    each = text.split(",") if KNOWN[name] in {"card_form", "power"} else [text]
                    words[KNOWN[name]].update(one.strip() for one in each)
        return {name: sorted(found - {""}, key=str.casefold) for name, found in words.items()}

    def save(self, commit: bool = True) -> KitItem:
        if self.instance.pk is None or not commit:
            return super().save(commit)
        changed = [
            box.name for box, shown in self.shown() if self.data.get(box.html_name, "") != shown
        ]
        self.instance.save(update_fields=changed)  # of the rest somebody else may know better
        return self.instance

    def shown(self) -> list[tuple[forms.BoundField, str]]:
        """Each box and the text that it held when the page was made."""
        return [(box, self.data.get(box.html_initial_name, _text_in(box))) for box in self]

    def clean_title(self) -> str:
        title = self.cleaned_data["title"]
        if not is_seen(title):
            raise forms.ValidationError(self.fields["title"].error_messages["required"])
        return title

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        wide, longest = data.get("wide"), data.get("long")
        if wide and longest and longest < wide:
            self.add_error(
                "long", _("The longest focal length is shorter than the shortest: swap the two.")
            )
        since, until = data.get("had_from"), data.get("back_by")
        if since and until and until < since:
            self.add_error("back_by", _("It goes back before it comes: look at the two dates."))
        self._check_fittings(data)
        self._check_owner(data)
        self._check_room(data)
        return data

    def _check_fittings(self, data: dict[str, Any]) -> None:
        kind = self.instance.kind
        if data.get("second_form") and data.get("slots") == 1:
            words = _("It records on one slot: say two above, or leave this empty.")
            self.add_error("second_form", words)
        for name in ("card_form", "second_form", "power"):
            if (kind, name) in SEVERAL or "," not in (data.get(name) or ""):
                continue
            if kind == "body" and name == "card_form":
                self.add_error(name, _("One form here; that of the second slot has its own box."))
            else:
                self.add_error(name, _("Name one. Only readers and chargers take several."))

    def _check_owner(self, data: dict[str, Any]) -> None:
        own = data.get("owner") == KitItem.Owner.OWN
        for name in ("owner_from", "had_from", "back_by"):
            if own and data.get(name):
                self.add_error(name, _("This is for what is hired or borrowed."))

    def _check_room(self, data: dict[str, Any]) -> None:
        others = KitItem.objects.exclude(pk=self.instance.pk).aggregate(all=Sum("count"))["all"]
        if (others or 0) + (data.get("count") or 0) > MOST:
            words = _now("That would be more than %(most)s things. Count only what may go along.")
            self.add_error("count", words % {"most": MOST})


def _text_in(box: forms.BoundField) -> str:
    if isinstance(box.initial, bool):
        return "on" if box.initial else ""
    text = box.field.widget.format_value(box.initial)
    text = text[0] if isinstance(text, list) else text
    return "" if text is None else str(text)
