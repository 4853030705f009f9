"""What every form of the couple has: words for its errors, and what it said when it was shown."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time
from typing import Any

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db.models import BLANK_CHOICE_DASH, Model, QuerySet
from django.forms.models import model_to_dict
from django.utils.formats import time_format
from django.utils.translation import gettext_lazy as _

from studio.words import long_date

from . import models as m
from .merging import Clash, as_posted, join, mark, read_marks, who_gives_way, write_marks
from .row_models import Anchor


class CarriedField(forms.SlugField):
    """Travels with a form but is no answer, so a row with nothing else in it stays empty."""

    widget = forms.HiddenInput

    def clean(self, value: Any) -> str:
        try:
            return super().clean(value)
        except forms.ValidationError:  # forged: the row counts as a new one
            return ""

    def has_changed(self, initial: Any, data: Any) -> bool:
        return False


class AnswerForm(forms.ModelForm):
    """Answers of which both partners may have a page open.

    `was` marks every answer that the page showed. What the other kept since is taken over where
    this page left it as it was; where both changed an answer, `clash` of its field says so until
    one is picked.
    """

    was = CarriedField(max_length=900, required=False)
    carried = ("key", "was", "DELETE")
    taken: tuple[str, ...] | list[str] = ()  # answers taken over from the other
    demanded: tuple[str, ...] = ()  # not required alone, but one of them or another is

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in self.fields:
            self.dress(name)

    def dress(self, name: str) -> None:
        """What every box of every form has."""
        field = self.fields[name]
        field.error_messages |= words_for(field) | getattr(field, "gone", {})
        field.demanded = name in self.demanded
        if isinstance(field, forms.TypedChoiceField) and field.choices[:1] == BLANK_CHOICE_DASH:
            field.choices = [("", _("Choose one")), *field.choices[1:]]
        if type(field.widget) in {forms.TextInput, forms.Textarea}:
            field.widget.attrs.setdefault("dir", "auto")

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> Any:
        if field_name == "was" and self.is_stored():
            return write_marks(self.marks(self.initial))
        return super().get_initial_for_field(field, field_name)

    def is_stored(self) -> bool:
        return True

    def is_removed(self) -> bool:
        return False

    def marks(self, values: dict[str, Any]) -> dict[str, str]:
        return {name: mark(values.get(name)) for name in self.asked()}

    def asked(self) -> list[str]:
        return [name for name in self.fields if name not in self.carried]

    def shown(self) -> dict[str, str]:
        """The marks of what the page showed; empty for a row that was new there."""
        return read_marks(self.data.get(self.add_prefix("was"), ""))

    def is_touched(self) -> bool:
        """Whether the row, as it is to be kept, differs from what is stored."""
        if not self.cleaned_data:
            return False
        before = self.marks(self.initial) if self.is_stored() else self.shown()
        return any(before.get(name) != now for name, now in self.marks(self.cleaned_data).items())

    def heading(self) -> str:
        """The first answer of a row, which names it."""
        name = self.asked()[0]
        return said(self.fields[name], self.cleaned_data[name])

    def is_news(self) -> bool:
        """Whether what was typed is not kept yet."""
        if not self.errors.get("DELETE") and self.cleaned_data.get("DELETE"):
            return self.is_stored()
        return bool(self.errors) or self.is_touched()

    def answers(self) -> dict[str, Any]:
        """What the row is saved with."""
        return {name: self.cleaned_data[name] for name in self.asked()}

    def store(self) -> None:
        """Only its fields: the rest may have changed meanwhile."""
        m.Wedding.objects.filter(pk=self.instance.pk).update(**self.answers())

    def _clean_form(self) -> None:
        """Merged before answers are looked at together: what is kept has to agree."""
        clashes = self._merge() if self.is_stored() and not self.is_removed() else []
        super()._clean_form()
        for name in clashes:
            self._tell_of_clash(name)

    def _merge(self) -> list[str]:
        """Take over what the other changed; returns the answers that both changed."""
        sides = {name: self._side(name) for name in self.asked() if name in self.cleaned_data}
        self.taken = [name for name, side in sides.items() if side in {"theirs", "both"}]
        clashes = [name for name, side in sides.items() if side == "clash"]
        for name in self.taken:
            self._take(name, sides[name])
        now = self.marks(self.initial)
        settled = {name: now[name] for name in sides if name not in clashes}
        self.data[self.add_prefix("was")] = write_marks(self.shown() | settled)
        if self.taken:
            self._errors.clear()
            self._clean_fields()
        return clashes

    def _side(self, name: str) -> str:
        value, field = self.cleaned_data[name], self.fields[name]
        stored = self.initial.get(name)
        if self.pick(name).startswith("both-") and join(stored or "", value) == stored:
            return "theirs"  # joined before, and sent once more
        return who_gives_way(
            self.shown().get(name),
            mark(stored),
            mark(value),
            not value or value == field.initial,
            self.pick(name),
        )

    def pick(self, name: str) -> str:
        return self.data.get(self.add_prefix(f"{name}_pick"), "")

    def _take(self, name: str, side: str) -> None:
        posted = as_posted(self.fields[name], self.initial.get(name))
        if side == "both":
            posted = [join(posted[0], self.cleaned_data[name])]
        self.data.setlist(self.add_prefix(name), posted)

    def _tell_of_clash(self, name: str) -> None:
        field, stored = self.fields[name], self.initial.get(name)
        words = said(field, stored) or str(_("nothing"))
        can_join = isinstance(field.widget, forms.Textarea) and bool(stored)
        field.clash = Clash(self.add_prefix(f"{name}_pick"), words, mark(stored), can_join)
        text = _("“%(label)s” was changed after you opened the page. Choose which to keep.")
        self.add_error(name, text % {"label": field.label})


class RowForm(AnswerForm):
    """A row of a list. `wedding` narrows choices to the couple's own days and places.

    A list may belong to something else: `belongs_to` is the model's name for what `wedding` is.
    """

    key = CarriedField(max_length=40, required=False)
    belongs_to = "wedding"
    fixed: dict[str, str] = {}  # values of the model that this form always sets
    first_rows: tuple[dict[str, str], ...] = ({},)  # what an empty list begins with
    most_rows = 0  # that the list keeps, where not as many as any

    def __init__(self, *args: Any, wedding: m.Wedding, **kwargs: Any) -> None:
        self.wedding = wedding
        super().__init__(*args, **kwargs)

    def is_stored(self) -> bool:
        return "key" in self.initial

    def is_removed(self) -> bool:
        """Ticked for removal, and not told to stay after all."""
        if self.cleaned_data.get("DELETE") and self.pick("DELETE") == f"theirs-{self._row_mark()}":
            del self.data[self.add_prefix("DELETE")]
            self.cleaned_data["DELETE"] = False
        return bool(self.cleaned_data.get("DELETE"))

    def _row_mark(self) -> str:
        return mark(list(self.marks(self.initial).values()))

    def ask_before_removing(self) -> None:
        """Nobody throws away words of the other that they have not seen."""
        shown, now = self.shown(), self.marks(self.initial)
        typed = self.marks(self.cleaned_data)
        news = [name for name in now if now[name] not in (shown.get(name), typed[name])]
        if not news or not self.is_stored() or self.pick("DELETE") == f"ours-{self._row_mark()}":
            return
        words = "; ".join(said(self.fields[name], self.initial.get(name)) for name in news)
        name = self.add_prefix("DELETE_pick")
        self.fields["DELETE"].clash = Clash(name, words, self._row_mark(), is_row=True)
        text = _("This was changed after you opened the page. Choose whether it stays.")
        self.add_error("DELETE", text)

    @classmethod
    def begins(cls, wedding: m.Wedding) -> tuple[dict[str, str], ...]:
        """What an empty list of a wedding begins with."""
        return cls.first_rows

    @classmethod
    def stored(cls, wedding: m.Wedding) -> QuerySet:
        if wedding.pk is None:
            return cls._meta.model.objects.none()
        return cls._meta.model.objects.filter(**{cls.belongs_to: wedding}, **cls.fixed)

    @classmethod
    def read(cls, row: m.Row) -> dict[str, Any]:
        return model_to_dict(row, cls._meta.fields)

    def write(self, key: str, values: dict[str, Any]) -> None:
        rows = self._meta.model._base_manager
        if issubclass(self._meta.model, Anchor):  # one that was removed is there again
            values |= {"removed_at": None}
        rows.update_or_create(**{self.belongs_to: self.wedding}, key=key, defaults=values)

    def remove(self, key: str) -> None:
        for row in self.stored(self.wedding).filter(key=key):
            row.take_out() if isinstance(row, Anchor) else row.delete()

    def answers(self) -> dict[str, Any]:
        return super().answers() | self.fixed

    def validate_unique(self) -> None:
        """The key decides which row is saved; another row with it is this row."""


def words_for(field: forms.Field, validators: Iterable[object] = ()) -> dict[str, str]:
    """What to do, in the label's words; `validators` are the model's, which a form lacks."""
    label = {"label": field.label}
    words = {
        "required": _("%(label)s: enter something here.") % label,
        "max_length": _("Shorten this to %(limit_value)d characters; it has %(show_value)d."),
    }
    if isinstance(field, forms.ChoiceField):
        words["required"] = _("%(label)s: choose one.") % label
        words["invalid_choice"] = _("%(label)s: choose one that is in the list.") % label
    if isinstance(field, forms.EmailField):
        words["invalid"] = _("Enter an email address like name@example.org.")
    least = _limit(MinValueValidator, validators, getattr(field, "min_value", None))
    most = _limit(MaxValueValidator, validators, getattr(field, "max_value", None))
    if least is not None and most is not None:
        text = _("%(label)s: enter a number from %(least)s to %(most)s.")
        text %= label | {"least": least, "most": most}
        words |= dict.fromkeys(("invalid", "min_value", "max_value"), text)
    return words


def _limit(kind: type, validators: Iterable[object], otherwise: object) -> object:
    """The first there is, since Django adds what the database holds after those of the field."""
    found = (each.limit_value for each in validators if isinstance(each, kind))
    return next(found, otherwise)


def said(field: forms.Field, value: Any) -> str:
    """An answer in the words of its question; "" where there is none."""
    if value is True:
        return str(_("yes"))
    if isinstance(value, time):
        return time_format(value, "H:i")
    if isinstance(value, date):
        return long_date(value)
    if isinstance(value, Model) or not value:
        return str(value or "")
    choices = dict(getattr(field, "choices", ()))
    values = value if isinstance(value, list) else [value]
    return ", ".join(str(choices.get(each, each)) for each in values)
