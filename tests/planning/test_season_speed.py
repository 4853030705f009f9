"""Season and Due next with 1, 100 and 5,000 weddings: prints what it measured, themselves as peer.

uv run pytest -m large -n0 -s tests/planning/test_season_speed.py
"""

from datetime import date, time, timedelta
from statistics import median
from time import perf_counter

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from intake.models import Day, Partner, Place, Wedding
from planning.models import Decisions, Hours, PlaceSpot, Policy

pytestmark = pytest.mark.large
SIZES = (1, 100, 5000)
A_YEAR = 80  # weddings


def book(numbers):
    """The most recent first; each with what a season reads of it."""
    today = timezone.localdate()
    weddings = Wedding.objects.bulk_create(Wedding(zone="Europe/London") for _ in numbers)
    pairs = list(zip(numbers, weddings, strict=True))
    days = Day.objects.bulk_create(
        Day(wedding=w, key="d", date=today + timedelta(days=3 + n * 365 // A_YEAR))
        for n, w in pairs
    )
    Hours.objects.bulk_create(Hours(day=day, starts=time(10), ends=time(22)) for day in days)
    Partner.objects.bulk_create(
        Partner(wedding=w, name=name, key=name) for _n, w in pairs for name in ("Ana", "Bo")
    )
    Decisions.objects.bulk_create(Decisions(wedding=w) for _n, w in pairs)
    places = Place.objects.bulk_create(Place(wedding=w, name="Mill", key="m") for _n, w in pairs)
    PlaceSpot.objects.bulk_create(PlaceSpot(place=p, latitude=52, longitude=-2) for p in places)


def measured(client, page):
    with CaptureQueriesContext(connection) as queries:
        client.get(page)
        asked = len(queries)
    taken = []
    for _ in range(7):
        begun = perf_counter()
        assert client.get(page).status_code == 200
        taken.append(perf_counter() - begun)
    return asked, median(taken)


def test_the_season_and_what_is_due_next(photographer):
    until = date(timezone.localdate().year + 1, 6, 1)
    Policy.objects.create(kind="liability", insurer="Larkmoor", starts=date(2020, 1, 1), ends=until)
    booked, rows = 0, {}
    for size in SIZES:
        book(range(booked, size))
        booked = size
        for page in ("/", "/due"):
            rows[page, size] = measured(photographer, page)
    for page in ("/", "/due"):
        print(f"\n{page}")
        for size in SIZES:
            queries, seconds = rows[page, size]
            print(f"{size:>6} weddings: {queries} queries, {1000 * seconds:.0f} ms")
        assert rows[page, 5000][0] == rows[page, 100][0]
