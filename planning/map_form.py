"""One page of forms: a spot for every place, and every drive the plan needs or already knows."""

from __future__ import annotations

from collections import defaultdict
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext as _

from intake.answer_form import words_for
from intake.answers import errors_of
from intake.models import Place, Wedding
from studio.in_turn import in_turn

from .compute.planned import Plan
from .forms import ZONES
from .models import Decisions, Drive, PlaceSpot
from .spot_form import MapField, SpotForm
from .spot_lines import named, spot_lines, zone_notes

Ends = tuple[Place | None, Place | None]
PUT, ZONE = "put:", "zone:"


class DriveForm(MapField):
    """Minutes the map says between two places; None is home."""

    map_minutes = forms.IntegerField(required=False, min_value=0, max_value=1440)

    def __init__(
        self, data: QueryDict | None, wedding: Wedding, ends: Ends, drive: Drive | None
    ) -> None:
        self.ends = {"wedding": wedding, "origin": ends[0], "destination": ends[1]}
        # A key may hold a hyphen but no full stop: two pairs of keys never make one prefix.
        prefix = ".".join(place.key if place else "" for place in ends)
        initial = {"map_minutes": drive.map_minutes} if drive else {}
        super().__init__(data, prefix, initial)
        field = self.fields["map_minutes"]
        field.label = " – ".join(named(place.name) if place else _("Home") for place in ends)
        field.error_messages |= words_for(field)

    def save(self) -> None:
        if self.cleaned_data["map_minutes"] is None:
            Drive.objects.filter(**self.ends).delete()
        else:
            # Without the join of `objects`, which PostgreSQL cannot lock.
            Drive.with_removed.update_or_create(**self.ends, defaults=self.cleaned_data)


class MapForm:
    """The page's forms, and what it says back about each spot.

    `do` is the button pressed: "put:KEY:TEXT" puts a text into a place's box, "zone:NAME" takes a
    zone for the wedding. Both keep the rest of the page as well, so that no typing is lost.
    """

    def __init__(self, wedding: Wedding, plan: Plan, data: QueryDict | None = None) -> None:
        self.wedding = wedding
        data, self.zone = _pressed(data)
        places = list(wedding.places.all())
        spots = {spot.place_id: spot for spot in PlaceSpot.objects.filter(place__in=places)}
        known = wedding.drives.select_related("origin", "destination")
        drives = {(drive.origin, drive.destination): drive for drive in known}
        kinds = _kinds(plan)
        self.spots = [SpotForm(data, p, spots.get(p.pk), kinds[p.key]) for p in places]
        self.drives = [
            DriveForm(data, wedding, ends, drives.get(ends))
            for ends in _needed(places, plan, set(drives))
        ]
        self.forms = (*self.spots, *self.drives)
        self._say_back(plan)

    def _say_back(self, plan: Plan) -> None:
        self.errors()  # reads what was typed
        where = {form.place.key: spot for form in self.spots if (spot := form.spot())}
        names = {form.place.key: form.place.name for form in self.spots}
        for form in self.spots:
            form.lines = spot_lines(form.place.key, where, names, plan.brief)
        self.zone_notes = zone_notes(where, names, plan.brief)

    def is_valid(self) -> bool:
        return not self.errors()

    def errors(self) -> list[tuple[str, str]]:
        """Every error as (id of its field, words); a spot's is told with the place's name."""
        found = [
            (target, f"{named(form.place.name)}: {message}" if len(self.spots) > 1 else message)
            for form in self.spots
            for target, message in errors_of(form)
        ]
        found += [error for form in self.drives for error in errors_of(form)]
        if self.zone and self.zone not in ZONES:
            words = _("There is no time zone “%(zone)s”. Set the zone under Booking.")
            found.append(("", words % {"zone": self.zone[:64]}))
        return found

    @in_turn()
    def save(self) -> None:
        for form in self.forms:
            if form.is_bound:
                form.save()
        if self.zone:
            _take_zone(self.wedding, self.zone)

    def kept(self) -> str:
        if not self.zone:
            return _("Kept.")
        words = _("Kept. The wedding now goes by %(zone)s; clock times stay as they were said.")
        return words % {"zone": self.zone}


def _pressed(data: QueryDict | None) -> tuple[QueryDict | None, str]:
    do = data.get("do", "") if data is not None else ""
    if do.startswith(PUT):
        key, _colon, text = do.removeprefix(PUT).partition(":")
        data = data.copy()
        data[f"{key}-where"] = text
    return data, do.removeprefix(ZONE) if do.startswith(ZONE) else ""


def _take_zone(wedding: Wedding, zone: str) -> None:
    """The venue visit was said on the clock there: its clock time stays."""
    decisions = Decisions.objects.filter(wedding=wedding, visit_at__isnull=False).first()
    if decisions:
        said = decisions.visit_at.astimezone(ZoneInfo(wedding.zone))
        decisions.visit_at = said.replace(tzinfo=ZoneInfo(zone))
        decisions.save(update_fields=["visit_at"])
    wedding.zone = zone
    wedding.save(update_fields=["zone"])


def _kinds(plan: Plan) -> defaultdict[str, set[Any]]:
    """What is planned at each place, by its key, whatever the couple ticked."""
    kinds: defaultdict[str, set[Any]] = defaultdict(set)
    for day in plan.days:
        for block in day.blocks:
            if block.place:
                kinds[block.place.key].add(block.kind)
    return kinds


def _needed(places: list[Place], plan: Plan, known: set[Ends]) -> list[Ends]:
    """Pairs of places, in the order the couple list them, home first."""
    by_key = {place.key: place for place in places}
    unknown = {
        (a and by_key[a.key], b and by_key[b.key])
        for day in plan.days
        for a, b in day.unknown_drives
    }
    home = {(by_key[key], None) for key in _last_places(plan) if key in by_key}
    unknown |= {ends for ends in home if ends[::-1] not in known}
    order = {place: number for number, place in enumerate((None, *places))}
    return sorted(known | unknown, key=lambda ends: (order[ends[0]], order[ends[1]]))


def _last_places(plan: Plan) -> set[str]:
    """Where each day ends before the photographer drives home."""
    placed = ([b.place.key for b in day.blocks if b.place and b.place.key] for day in plan.days)
    return {keys[-1] for keys in placed if keys}
