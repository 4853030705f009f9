"""One form for each kind of row the couple fill in. Cleaning only; saving is in rows.py."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from . import models as m
from .answer_form import AnswerForm, RowForm
from .names import split_names
from .not_asked import IN_CHARGE, is_asked, leave_out, leave_out_choices
from .when import DateField, TimeField

MANY_PEOPLE = 400


class PartnerForm(RowForm):
    first_rows = ({}, {})

    class Meta:
        model = m.Partner
        fields = ("key", "name", "called", "word", "phone", "email")
        labels = {
            "name": _("Full name"),
            "called": _("What you are called"),
            "word": _("What we should call you"),
            "phone": _("Mobile phone"),
            "email": _("Email"),
        }
        help_texts = {
            "called": _("The name your friends use."),
            "word": _("Bride, groom, partner, or a word of your own."),
            "phone": _("For the day itself, if plans change."),
        }
        widgets = {
            "name": forms.TextInput({"spellcheck": "false"}),
            "called": forms.TextInput({"spellcheck": "false"}),
            "word": forms.TextInput({"autocomplete": "off"}),
            "phone": forms.TextInput({"type": "tel"}),
        }

    # WHATWG's names for what a browser may fill in; a section of its own for each partner.
    FILLED_IN = {"name": "name", "called": "nickname", "phone": "tel", "email": "email"}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        section = f"section-{self.prefix or 'partners'}"
        for name, token in self.FILLED_IN.items():
            self.fields[name].widget.attrs["autocomplete"] = f"{section} {token}"
        leave_out(self, self.wedding, "partners.word", "word")


class MattersForm(AnswerForm):
    class Meta:
        model = m.Wedding
        fields = ("matters",)
        labels = {"matters": _("What matters most to you about the day?")}
        help_texts = {"matters": _("If one thing is photographed well, what should it be?")}
        widgets = {"matters": forms.Textarea({"rows": 4})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        leave_out(self, self.instance, "wedding.matters", "matters")


class AnythingElseForm(AnswerForm):
    class Meta:
        model = m.Wedding
        fields = ("anything_else",)
        labels = {"anything_else": _("Anything else we should know")}
        widgets = {"anything_else": forms.Textarea({"rows": 4})}


class DayForm(RowForm):
    most_rows = 14
    date = DateField(label=_("Date"), help_text=_("For example 12 June 2027."))

    class Meta:
        model = m.Day
        fields = ("key", "date", "title")
        labels = {"title": _("What happens that day")}
        help_texts = {"title": _("Only if there is more than one day.")}


class MomentForm(RowForm):
    most_rows = 100  # each is weighed against all others
    first_rows = ({"kind": m.MomentKind.CEREMONY}, {"kind": m.MomentKind.MEAL})
    demanded = ("at",)
    at = TimeField(label=_("Time"))

    class Meta:
        model = m.Moment
        fields = ("key", "kind", "title", "at", "unknown", "day", "place")
        labels = {
            "kind": _("What"),
            "title": _("In your words"),
            "unknown": _("We do not know yet"),
            "day": _("Which day"),
            "place": _("Where"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["day"].queryset = self.wedding.days.all()
        self.fields["place"].queryset = self.wedding.places.all()
        self.fields["day"].empty_label = self.fields["place"].empty_label = _("not said")
        if len(self.wedding.days.all()) < 2:
            del self.fields["day"]
        if not self.wedding.places.all():
            del self.fields["place"]
        leave_out_choices(self, self.wedding, "moment", "kind")

    @classmethod
    def begins(cls, wedding: m.Wedding) -> tuple[dict[str, str], ...]:
        asked = (row for row in cls.first_rows if is_asked(wedding, f"moment.{row['kind']}"))
        return tuple(asked) or ({},)

    @classmethod
    def stored(cls, wedding: m.Wedding) -> QuerySet:
        return super().stored(wedding).select_related("day", "place")

    def answers(self) -> dict[str, Any]:
        """A time nobody was asked the day of is on the only day, if there is only one."""
        if "day" in self.fields or self.initial.get("day"):
            return super().answers()
        days = list(self.wedding.days.all())
        return super().answers() | {"day": days[0] if len(days) == 1 else None}

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("kind") and not data.get("at") and not data.get("unknown"):
            if "at" not in self.errors:
                self.add_error("at", _("Enter the time, or tick “We do not know yet”."))
        elif data.get("at") and data.get("unknown"):
            self.add_error("unknown", _("Take the tick out, or take the time out."))
        return data


class PlaceForm(RowForm):
    most_rows = 60  # each moment offers all of them
    uses = forms.MultipleChoiceField(
        label=_("What happens there"),
        required=False,
        choices=m.Use.choices,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = m.Place
        fields = ("key", "name", "uses", "address", "coordinator", "coordinator_phone")
        fields += ("coordinator_email", "wet_plan", "not_allowed", "note")
        labels = {
            "name": _("Name of the place"),
            "address": _("Address"),
            "coordinator": _("Who is in charge there"),
            "coordinator_phone": _("Their phone"),
            "coordinator_email": _("Their email"),
            "wet_plan": _("Where to go if it rains"),
            "not_allowed": _("What is not allowed"),
            "note": _("Anything else about it"),
        }
        help_texts = {
            "wet_plan": _("For portraits and group photographs: a barn, a hall, a covered step."),
            "not_allowed": _("Flash in church, confetti, a lawn nobody may stand on."),
        }
        widgets = {
            "name": forms.TextInput({"autocomplete": "off"}),
            "coordinator": forms.TextInput({"autocomplete": "off", "spellcheck": "false"}),
            "address": forms.Textarea({"rows": 3, "autocomplete": "off"}),
            "coordinator_phone": forms.TextInput({"type": "tel", "autocomplete": "off"}),
            "coordinator_email": forms.EmailInput({"autocomplete": "off"}),
            "wet_plan": forms.Textarea({"rows": 2}),
            "not_allowed": forms.Textarea({"rows": 2}),
            "note": forms.Textarea({"rows": 2}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        leave_out_choices(self, self.wedding, "use", "uses")
        leave_out(self, self.wedding, "places.in_charge", *IN_CHARGE)
        leave_out(self, self.wedding, "places.wet_plan", "wet_plan")
        leave_out(self, self.wedding, "places.not_allowed", "not_allowed")


class ContactForm(RowForm):
    fixed = {"listed_as": m.Contact.List.CONTACT}

    class Meta:
        model = m.Contact
        fields = ("key", "name", "role", "phone")
        labels = {"name": _("Name"), "role": _("Who they are"), "phone": _("Phone")}
        widgets = {
            "name": forms.TextInput({"autocomplete": "off", "spellcheck": "false"}),
            "role": forms.TextInput({"autocomplete": "off"}),
            "phone": forms.TextInput({"type": "tel", "autocomplete": "off"}),
        }


class HelperForm(RowForm):
    fixed = {"listed_as": m.Contact.List.HELPER}

    class Meta:
        model = m.Contact
        fields = ("key", "name", "side", "phone")
        labels = {"name": _("Name"), "side": _("Whose faces they know"), "phone": _("Phone")}
        widgets = ContactForm.Meta.widgets

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        shorts = [partner.short for partner in self.wedding.partners.all()][:2]
        sides = [m.Contact.Side.FIRST, m.Contact.Side.SECOND]
        self.fields["side"].choices = [
            (m.Contact.Side.BOTH, _("Both sides")),
            *(
                (side, _("%(name)s’s side") % {"name": short})
                for side, short in zip(sides, shorts, strict=False)
            ),
        ]


class SupplierForm(RowForm):
    fixed = {"listed_as": m.Contact.List.SUPPLIER}

    class Meta:
        model = m.Contact
        fields = ("key", "role", "name", "phone")
        labels = {"role": _("What they do"), "name": _("Name"), "phone": _("Phone")}
        widgets = ContactForm.Meta.widgets


class GroupForm(RowForm):
    demanded = ("people",)
    carried = (*RowForm.carried, "also")
    field_order = ("key", "title", "everyone", "people", "also", "extra", "wish")
    also = forms.CharField(
        label=_("Somebody named before"),
        required=False,
        max_length=200,
        widget=forms.TextInput({"list": "names", "autocomplete": "off", "spellcheck": "false"}),
    )
    extra = forms.IntegerField(
        label=_("And how many more nobody needs to name"),
        required=False,
        min_value=0,
        max_value=MANY_PEOPLE,
        widget=forms.NumberInput({"inputmode": "numeric"}),
        help_text=_("With everybody in it: how many you are altogether, about."),
    )

    class Meta:
        model = m.Group
        fields = ("key", "title", "everyone", "people", "extra", "wish")
        labels = {
            "title": _("Title"),
            "everyone": _("Everybody is in this one"),
            "people": _("People, one name a line"),
            "wish": _("How much it matters"),
        }
        help_texts = {"title": _("For example “Both sets of parents”.")}
        widgets = {"people": forms.Textarea({"rows": 4, "spellcheck": "false"})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["wish"].choices = m.Group.Wish.choices
        self.fields["wish"].initial = m.Group.Wish.MUST

    def clean_people(self) -> str:
        names = split_names(self.cleaned_data["people"])
        if len(names) > MANY_PEOPLE:
            raise forms.ValidationError(
                _("%(count)s names are more than one photograph holds. Give the number instead.")
                % {"count": len(names)}
            )
        return "\n".join(names)

    def clean_extra(self) -> int:
        return self.cleaned_data["extra"] or 0

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("also") and "people" in data:
            data["people"] = "\n".join([*data["people"].splitlines(), *split_names(data["also"])])
        nobody = not any(data.get(name) for name in ("everyone", "people", "extra"))
        if nobody and not {"people", "extra"} & set(self.errors):
            self.add_error("people", _("Enter who is in it, or how many people."))
        return data


class MustHaveForm(RowForm):
    class Meta:
        model = m.MustHave
        fields = ("key", "text", "kind")
        labels = {"text": _("The photograph"), "kind": _("When")}
        help_texts = {"text": _("For example “Grandad’s watch on my wrist”.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["kind"].choices = [("", _("Whenever it fits")), *m.MomentKind.choices]
        leave_out_choices(self, self.wedding, "moment", "kind")


class CareNoteForm(RowForm):
    class Meta:
        model = m.CareNote
        fields = ("key", "person", "kind", "other", "note")
        labels = {
            "person": _("Who"),
            "kind": _("What we should know"),
            "other": _("With whom"),
            "note": _("In your words"),
        }
        help_texts = {
            "person": _("The name as in the group photographs."),
            "other": _("Only if two people must not share a frame."),
        }
        widgets = {
            "person": forms.TextInput({"list": "names", "autocomplete": "off"}),
            "other": forms.TextInput({"list": "names", "autocomplete": "off"}),
            "note": forms.Textarea({"rows": 2}),
        }

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        if data.get("kind") == m.CareNote.Kind.APART and not data.get("other"):
            self.add_error("other", _("Enter the name of the other person."))
        return data
