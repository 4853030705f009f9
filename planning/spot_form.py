"""The boxes of one place on the map: where it is, what people face, what hides the low sun."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from intake.answer_form import words_for
from intake.models import Place

from .compute.bearing_text import parse_bearing, parse_skyline, skyline_text, wind_name
from .compute.place_text import pair_text, parse_place
from .compute.values import Spot
from .models import PlaceSpot
from .spot_lines import Line

# A tenth of a metre; nobody stands more exactly.
DECIMALS = 6
FACINGS = {"ceremony_facing": {"ceremony"}, "group_facing": {"groups", "portraits"}}


class MapField(forms.Form):
    """A small form on the map's page; what the page did not send is left as it is stored.

    The page may be older than a place of the couple's, or than what happens there.
    """

    def __init__(self, data: QueryDict | None, prefix: str, initial: dict[str, Any]) -> None:
        sent = data is not None and any(f"{prefix}-{name}" in data for name in self.base_fields)
        super().__init__(data if sent else None, prefix=prefix, initial=initial)
        for field in self.fields.values():
            field.error_messages |= words_for(field)


class TypedField(forms.CharField):
    """Text that is read into a value; the value is shown again in a form that reads back."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(required=False, **kwargs)
        self.widget.attrs |= {"dir": "auto", "spellcheck": "false", "autocomplete": "off"}

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        try:
            return self.read(text) if text else None
        except ValueError as fault:
            raise forms.ValidationError(str(fault)) from fault

    def prepare_value(self, value: Any) -> Any:
        return value if value is None or isinstance(value, str) else self.write(value)

    def has_changed(self, initial: Any, data: Any) -> bool:
        return super().has_changed(self.prepare_value(initial), data)

    def read(self, text: str) -> Any:
        raise NotImplementedError

    def write(self, value: Any) -> str:
        raise NotImplementedError


class WhereField(TypedField):
    def read(self, text: str) -> Spot:
        spot = parse_place(text)
        # The zero takes the sign from a rounded -0.0.
        return Spot(*(round(x, DECIMALS) + 0.0 for x in (spot.latitude, spot.longitude)))

    def write(self, value: Spot) -> str:
        return pair_text(value)


class FacingField(TypedField):
    def read(self, text: str) -> float:
        return parse_bearing(text)

    def write(self, value: float) -> str:
        return f"{value:g}"


class SkylineField(TypedField):
    widget = forms.Textarea

    def read(self, text: str) -> list[list[float]]:
        points, faults = parse_skyline(text)
        if faults:
            raise forms.ValidationError(list(faults))
        return [list(point) for point in points]

    def write(self, value: list[list[float]]) -> str:
        return skyline_text(tuple((bearing, height) for bearing, height in value))


class SpotForm(MapField):
    """Where a place is, and what depends on that: the facings and the skyline."""

    where = WhereField(label=lazy("Where on the map"))
    ceremony_facing = FacingField(label=lazy("In the ceremony the couple face"))
    group_facing = FacingField(label=lazy("In the group photographs people face"))
    skyline = SkylineField(
        label=lazy("Skyline: what hides the low sun"),
        help_text=lazy(
            "One a line, bearing and height in degrees, like NW 12 or 300 12. "
            "Over a quarter turn that you leave out, the horizon counts as level."
        ),
    )
    depends = ("ceremony_facing", "group_facing", "skyline")
    lines: tuple[Line, ...] = ()  # what the page says back

    def __init__(
        self, data: QueryDict | None, place: Place, spot: PlaceSpot | None, kinds: Collection[str]
    ) -> None:
        initial = _stored(spot) if spot else {}
        super().__init__(data, place.key, initial)
        self.place, self.initial_spot = place, initial.get("where")
        for name, uses in FACINGS.items():
            typed = self.is_bound and self.data.get(self.add_prefix(name))
            if initial.get(name) is None and not typed and not uses & {*place.uses, *kinds}:
                del self.fields[name]
        lines = str(self["skyline"].value() or "").count("\n") + 2
        self.fields["skyline"].widget.attrs["rows"] = min(max(3, lines), 12)

    def spot(self) -> Spot | None:
        """What the box says, when it can be read."""
        return self.cleaned_data.get("where") if self.is_bound else self.initial_spot

    def dependent(self) -> list[Any]:
        """The boxes that need a spot first."""
        return [self[name] for name in self.depends if name in self.fields]

    def is_open(self) -> bool:
        return any(box.errors or box.value() for box in self.dependent())

    def facings(self) -> str:
        """What is stored or typed, in a few words."""
        values = self.cleaned_data if self.is_bound else self.initial
        words = {"ceremony_facing": _("the couple face"), "group_facing": _("groups face")}
        said = [
            f"{words[name]} {values[name]:g}° ({wind_name(values[name])})"
            for name in words
            if name in self.fields and values.get(name) is not None
        ]
        return ", ".join(said)

    def full_clean(self) -> None:
        super().full_clean()
        for name in self.fields:  # the summary runs down the page
            if name in self._errors:
                self._errors[name] = self._errors.pop(name)

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        is_without = "where" not in self.errors and data.get("where") is None
        if is_without and any(self.data.get(box.html_name, "").strip() for box in self.dependent()):
            text = _(
                "Say where this place is: what people face and the skyline are kept with it. "
                "To take it off the map, empty those boxes too."
            )
            self.add_error("where", text)
        return data

    def save(self) -> None:
        sent = {name for name in self.fields if self.add_prefix(name) in self.data}
        spot, spots = self.cleaned_data["where"], PlaceSpot.objects
        if "where" not in sent:
            spot = self.initial_spot
        if spot is None:
            spots.filter(place=self.place).delete()
            return
        values = {name: self.cleaned_data[name] for name in sent - {"where"}}
        if "skyline" in values:
            values["skyline"] = values["skyline"] or []
        if "where" in sent and "where" in self.changed_data:
            values |= {"latitude": spot.latitude, "longitude": spot.longitude}
        spots.update_or_create(place=self.place, defaults=values)


def _stored(spot: PlaceSpot) -> dict[str, Any]:
    return {
        "where": Spot(spot.latitude, spot.longitude),
        "ceremony_facing": spot.ceremony_facing,
        "group_facing": spot.group_facing,
        "skyline": spot.skyline,
    }
