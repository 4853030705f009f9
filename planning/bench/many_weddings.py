"""Invented weddings by the thousand, in a database of their own that is thrown away."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from itertools import cycle, islice
from pathlib import Path
from typing import Any

from django.db import connection, models

from intake import models as words
from intake.steps import STEPS
from planning.models import Decisions, Hours

GIVEN = [
    "Þóra", "Łukasz", "Wanjirũ", "Ödön", "Marta", "Šimon", "Eilidh", "Tadeu", "Noa", "Ines",
    "Jūratė", "Kofi", "Hùng", "Saoirse",
]  # fmt: skip
FAMILY = [
    "Sigurðardóttir", "Wiśniewski", "Kamau", "Szőke", "Novák", "Abernethy", "Østby",
    "Ferreira", "Đặng", "Müller",
]  # fmt: skip
PLACE = [
    "Orchard", "Mill", "Heron", "Lantern", "Quarry", "Harbour", "Juniper", "Beacon", "Meadow",
    "Kiln", "Weir", "Chapel",
]  # fmt: skip
KIND = ["Barn", "House", "Hall", "Garden", "Loft", "Yard"]
BATCH = 500  # rows of one statement


@contextmanager
def own_database() -> Iterator[None]:
    """Another database of the same kind, on the disk as a studio's is; the studio's is not read."""
    with tempfile.TemporaryDirectory(prefix="foreday-bench-") as folder:
        connection.settings_dict["TEST"]["NAME"] = (
            str(Path(folder) / "bench.sqlite3") if connection.vendor == "sqlite" else None
        )
        studios = connection.settings_dict["NAME"]
        connection.creation.create_test_db(verbosity=0, autoclobber=True, serialize=False)
        try:
            yield
        finally:
            connection.creation.destroy_test_db(studios, verbosity=0)


def add_weddings(first: int, last: int, today: date) -> None:
    """Weddings `first` to `last` - 1, each with two partners, a day, two places, times, somebody
    who knows faces, and every step kept. Of four, one is past; the rest lie ahead, a day apart."""
    numbers = range(first, last)
    weddings = _made(words.Wedding, (_wedding(n) for n in numbers))
    _made(Decisions, (Decisions(wedding=wedding) for wedding in weddings))
    _made(words.Partner, _rows(words.Partner, weddings, 2, _partner))
    days = _made(words.Day, _rows(words.Day, weddings, 1, lambda n, i: {"date": _date(n, today)}))
    _made(Hours, (Hours(day=day, starts=time(9), ends=time(22)) for day in days))
    _made(words.Place, _rows(words.Place, weddings, 2, _place))
    _made(words.Moment, _rows(words.Moment, weddings, 3, _moment))
    _made(words.Contact, _rows(words.Contact, weddings, 1, _helper))
    _made(words.Group, _rows(words.Group, weddings, 8, _group))
    kept = ((wedding, step) for wedding in weddings for step in STEPS)
    at = datetime(2026, 1, 1).astimezone()
    _made(
        words.StepState,
        (words.StepState(wedding=w, slug=step.slug, saved_at=at) for w, step in kept),
    )


Rows = Iterable[models.Model]


def _made(model: type[models.Model], rows: Rows) -> list[Any]:
    return model.objects.bulk_create(rows, batch_size=BATCH)


def _rows(model: type[words.Row], weddings: list[words.Wedding], each: int, of: Any) -> Rows:
    for wedding in weddings:
        number = int(wedding.public_id.removeprefix("invented-"))
        for i in range(each):
            yield model(wedding=wedding, key=f"{i}k{number}", position=i, **of(number, i))


def _wedding(number: int) -> words.Wedding:
    return words.Wedding(public_id=f"invented-{number}", zone="Europe/London", online="ask")


def _partner(n: int, i: int) -> dict[str, Any]:
    given, family = GIVEN[(n + 5 * i) % len(GIVEN)], FAMILY[(n // 3 + i) % len(FAMILY)]
    return {"name": f"{given} {family}-{n}", "phone": "07700 900140"}


def _place(n: int, i: int) -> dict[str, Any]:
    name = f"{PLACE[(n + i) % len(PLACE)]} {KIND[n // 7 % len(KIND)]} {n % 97}"
    return {"name": name, "wet_plan": "The loft"}


def _date(n: int, today: date) -> date:
    return today - timedelta(days=1 + n) if n % 4 == 3 else today + timedelta(days=n)


def _moment(n: int, i: int) -> dict[str, Any]:
    kind = ("ceremony", "meal", "dance")[i]
    return {"kind": kind, "at": time(13 + 3 * i, n % 4 * 15)}


def _helper(n: int, i: int) -> dict[str, Any]:
    return {"listed_as": "helper", "name": f"{GIVEN[n % len(GIVEN)]} {FAMILY[n % 7]}"}


def _group(n: int, i: int) -> dict[str, Any]:
    people = islice(cycle(GIVEN), n % 5, n % 5 + 3 + i)
    return {"title": f"Family {i}", "people": "\n".join(people), "wish": "must"}
