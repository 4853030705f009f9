"""What the photographer fills in: the booking, the studio."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from django import forms
from django.conf import settings
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.forms import DayForm
from intake.languages import language_of
from intake.models import Day, Wedding
from intake.steps import Part
from intake.when import DateField, TimeField, check_year
from studio.in_turn import in_turn
from studio.models import Studio
from studio.words import kept_for

from .countries import read_countries, spoken
from .expect_words import CANNOT, cannot_promise
from .kinds import kind_choices
from .models import Decisions, Hours
from .retention import is_over

ZONES = sorted(zone for zone in available_timezones() if "/" in zone or zone == "UTC")
MOMENT = "%Y-%m-%dT%H:%M"


class ZoneField(forms.CharField):
    """An IANA time zone, offered as one types."""

    def __init__(self, **kwargs: Any) -> None:
        attrs = {"list": "zones", "spellcheck": "false", "autocomplete": "off"}
        super().__init__(max_length=64, widget=forms.TextInput(attrs), **kwargs)

    def clean(self, value: Any) -> str:
        zone = super().clean(value).replace(" ", "_")
        if zone not in ZONES:
            raise forms.ValidationError(_("Choose a time zone from the list, like Europe/London."))
        return zone


class ClockField(forms.DateTimeField):
    """A date and time on the clock of one zone, whatever the server's own is."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            input_formats=[MOMENT, "%Y-%m-%d %H:%M", "%d/%m/%Y %H:%M"],
            widget=forms.DateTimeInput({"type": "datetime-local"}, format=MOMENT),
            required=False,
            validators=[check_year],
            error_messages={
                "invalid": _("Enter a date and time that exist."),
                "ambiguous_timezone": _(
                    "The clocks change then: enter a time that comes once that day."
                ),
            },
            **kwargs,
        )
        self.zone = "UTC"

    def to_python(self, value: Any) -> datetime | None:
        try:
            with timezone.override(ZoneInfo(self.zone)):
                return super().to_python(value)
        except forms.ValidationError as error:
            words = self.error_messages.get(error.code, error.message)
            raise forms.ValidationError(words) from error

    def prepare_value(self, value: Any) -> Any:
        with timezone.override(ZoneInfo(self.zone)):
            return super().prepare_value(value)


class BookingForm(forms.Form):
    """Names, zone and dates of a wedding, as the photographer books it."""

    # With what was shown beside what was typed: the couple may have mended a name meanwhile.
    first = forms.CharField(
        label=_("First partner’s full name"), max_length=120, show_hidden_initial=True
    )
    second = forms.CharField(
        label=_("Second partner’s full name"), max_length=120, show_hidden_initial=True
    )
    zone = ZoneField(
        label=_("Time zone of the wedding"), help_text=_("Of the place, not of your studio.")
    )
    style = forms.ChoiceField(label=_("Kind of day"))
    language = forms.ChoiceField(
        label=_("Language of the couple"),
        help_text=_("Of their questionnaire, their mails and what you agree with them."),
        choices=settings.LANGUAGES,
    )
    answers_due = DateField(label=_("Answers wanted by"), required=False)
    meeting_at = ClockField(
        label=_("Planning meeting"),
        help_text=_("On your own clock; two to three months before, six weeks at the latest."),
    )
    visit_at = ClockField(
        label=_("Venue visit"), help_text=_("On the clock there; a week or two before.")
    )
    countries = forms.CharField(
        label=_("Country, or countries"),
        required=False,
        max_length=300,
        help_text=_("Insurance is held against it. Empty: the country of the time zone."),
    )

    def __init__(self, *args: Any, wedding: Wedding, **kwargs: Any) -> None:
        self.wedding = wedding
        studio = Studio.get()
        super().__init__(*args, initial=self._stored(wedding, studio), **kwargs)
        for field in self.fields.values():
            field.error_messages |= words_for(field)
        style = self.fields["style"]
        style.choices, style.help_text = kind_choices(), _about_kinds()
        self.fields["meeting_at"].zone = studio.zone
        self.fields["visit_at"].zone = self._visit_zone()

    def _stored(self, wedding: Wedding, studio: Studio) -> dict[str, Any]:
        if wedding.pk is None:
            return {
                "zone": studio.zone,
                "style": "one_place",
                "language": studio.language,
            }
        decisions = Decisions.objects.filter(wedding=wedding).first() or Decisions()
        names = [partner.name for partner in wedding.partners.all()]
        return dict(zip(("first", "second"), names, strict=False)) | {
            "zone": wedding.zone,
            "language": language_of(wedding),
            "answers_due": wedding.answers_due,
            "style": decisions.style,
            "meeting_at": decisions.meeting_at,
            "visit_at": decisions.visit_at,
            "countries": spoken(decisions.countries),
        }

    def _visit_zone(self) -> str:
        zone = str(self.data.get("zone") or self.initial["zone"]).replace(" ", "_")
        return zone if zone in ZONES else "UTC"

    def clean_countries(self) -> list[str]:
        return read_countries(self.cleaned_data["countries"])

    def save(self) -> Wedding:
        data, wedding = self.cleaned_data, self.wedding
        booked = ("zone", "language", "answers_due")
        for name in booked:
            setattr(wedding, name, data[name])
        wedding.save(update_fields=booked if wedding.pk else None)
        partners = list(wedding.partners.all())
        for position, name in enumerate(("first", "second")):
            if position >= len(partners):
                wedding.partners.create(name=data[name], position=position)
            elif name in self.changed_data:
                partners[position].name = data[name]
                partners[position].save(update_fields=["name"])
        values = {name: data[name] for name in ("style", "meeting_at", "visit_at", "countries")}
        Decisions.objects.update_or_create(wedding=wedding, defaults=values)
        return wedding


def _about_kinds() -> str:
    """In a new tab, so that nothing typed into the booking is lost."""
    text = _("It lays out the first timeline. Everything can change later.")
    see = _("See the kinds of day (opens a new tab)")
    return format_html('{} <a href="{}" target="_blank">{}</a>', text, reverse("kinds"), see)


class BookedDayForm(DayForm):
    """A day and the hours booked for it."""

    starts = TimeField(label=_("Booked from"))
    ends = TimeField(label=_("Booked until"))

    def clean_date(self) -> date | None:
        """A slip in the year would have the next night's `retention --erase` take the wedding."""
        day = self.cleaned_data["date"]
        booked = self.wedding.pk and "date" in self.changed_data
        if booked and day and is_over(day, self.wedding):
            raise forms.ValidationError(
                _("So long after that day nothing is kept here any more. Look at the year.")
            )
        return day

    @classmethod
    def read(cls, row: Day) -> dict[str, Any]:
        hours = Hours.objects.filter(day=row).first() or Hours()
        return super().read(row) | {"starts": hours.starts, "ends": hours.ends}

    def write(self, key: str, values: dict[str, Any]) -> None:
        """The day is the couple's row, its hours are the photographer's: each to its table."""
        hours = {name: values.pop(name) for name in ("starts", "ends")}
        super().write(key, values)
        day = Day.objects.get(wedding=self.wedding, key=key)
        Hours.objects.update_or_create(day=day, defaults=hours)


BOOKED_DAYS = Part("days", BookedDayForm, _("Day"), _("Days"), add=_("Add another day"))


class StudioForm(forms.ModelForm):
    zone = ZoneField(label=_("Your time zone"))
    language = forms.ChoiceField(
        label=_("Language of your couples"),
        help_text=Studio._meta.get_field("language").help_text,
        choices=settings.LANGUAGES,
    )

    class Meta:
        model = Studio
        fields = (
            "name",
            "phone",
            "email",
            "home",
            "zone",
            "language",
            "group_minutes",
            "person_seconds",
            "walk_seconds",
            "cannot_promise",
            "keep_months",
            "keeps",
            "explains",
        )
        widgets = {
            "phone": forms.TextInput({"type": "tel"}),
            "cannot_promise": forms.Textarea({"rows": 6, "dir": "auto"}),
            "keeps": forms.Textarea({"rows": 6, "dir": "auto"}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.error_messages |= words_for(field)
        self.initial["cannot_promise"] = cannot_promise(self.instance)
        self.initial["keeps"] = self.instance.what_is_kept

    def clean_cannot_promise(self) -> str:
        return self._own_words("cannot_promise", {str(CANNOT)})

    def clean_keeps(self) -> str:
        # Of the months that the page showed, or of those that are chosen now.
        months = (self.instance.keep_months, self.cleaned_data.get("keep_months") or 12)
        return self._own_words("keeps", {kept_for(each) for each in months})

    def _own_words(self, name: str, ours: set[str]) -> str:
        """Our own words, left as they are, stay ours: they are translated, the studio's are not."""
        text = "\n".join(self.cleaned_data[name].splitlines()).strip()
        return "" if text in ours else text


@in_turn()
def save_booking(form: BookingForm, days: Any) -> None:
    form.save()
    days.save()
