"""One page of forms: a spot for every place, and a drive for every pair the day needs."""

from __future__ import annotations

from itertools import combinations

from django.db import transaction
from django.http import QueryDict

from intake.answers import errors_of
from intake.models import Wedding

from .forms import DriveForm, SpotForm


class MapForm:
    def __init__(self, wedding: Wedding, data: QueryDict | None = None) -> None:
        places = list(wedding.places.all())
        ends = [(None, place) for place in places] + list(combinations(places, 2))
        self.spots = [SpotForm(data, place=place) for place in places]
        self.drives = [DriveForm(data, wedding=wedding, origin=a, to=b) for a, b in ends]

    def is_valid(self) -> bool:
        return not self.errors()

    def errors(self) -> list[tuple[str, str]]:
        return [error for form in (*self.spots, *self.drives) for error in errors_of(form)]

    @transaction.atomic
    def save(self) -> None:
        for form in (*self.spots, *self.drives):
            form.save()
