"""One page of forms: a spot for every place, and every drive the plan needs or already knows."""

from __future__ import annotations

from django.db import transaction
from django.http import QueryDict

from intake.answers import errors_of
from intake.models import Place, Wedding

from .compute.planned import Plan
from .forms import DriveForm, SpotForm
from .models import PlaceSpot

Ends = tuple[Place | None, Place | None]


class MapForm:
    def __init__(self, wedding: Wedding, plan: Plan, data: QueryDict | None = None) -> None:
        places = list(wedding.places.all())
        spots = {spot.place_id: spot for spot in PlaceSpot.objects.filter(place__in=places)}
        known = wedding.drives.select_related("origin", "destination")
        drives = {(drive.origin, drive.destination): drive for drive in known}
        self.spots = [SpotForm(data, place, spots.get(place.pk)) for place in places]
        self.drives = [
            DriveForm(data, wedding, ends, drives.get(ends))
            for ends in _needed(places, plan, set(drives))
        ]
        self.forms = (*self.spots, *self.drives)

    def is_valid(self) -> bool:
        return not self.errors()

    def errors(self) -> list[tuple[str, str]]:
        return [error for form in self.forms for error in errors_of(form)]

    @transaction.atomic
    def save(self) -> None:
        for form in self.forms:
            if form.is_bound:
                form.save()


def _needed(places: list[Place], plan: Plan, known: set[Ends]) -> list[Ends]:
    """Pairs of places, in the order the couple list them, home first."""
    by_key = {place.key: place for place in places}
    unknown = {
        (a and by_key[a.key], b and by_key[b.key])
        for day in plan.days
        for a, b in day.unknown_drives
    }
    order = {place: number for number, place in enumerate((None, *places))}
    return sorted(known | unknown, key=lambda ends: (order[ends[0]], order[ends[1]]))
