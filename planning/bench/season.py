"""The photographer's pages of all weddings, each beside itself with fewer weddings.

A page holds no more weddings than `planning.season.PAGE`, the calendar no more than its own `MOST`:
with 500 both are full, so that what 5,000 cost beyond that is the size of the database alone.
"""

from __future__ import annotations

import gc
import logging
from collections.abc import Callable
from statistics import median
from time import process_time
from typing import Any

from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext, override_settings
from django.urls import reverse
from django.utils import timezone

from planning.bench.many_weddings import add_weddings, own_database
from planning.ics import written
from planning.season_calendar import entries_of, season_calendar

WORK = "season pages"
COUNTS = (1, 500, 5000)
TIMES = 9
GOAL = 2.0  # times itself with 500
Row = dict[str, Any]


def measured(counts: tuple[int, ...] = COUNTS, times: int = TIMES) -> list[Row]:
    """Seconds of the processor (median) and queries, of each page for each number of weddings."""
    logging.disable(logging.INFO)  # a sign-in is told to the log, but this one is nobody's
    try:
        with own_database(), override_settings(ALLOWED_HOSTS=["*"]):
            return rows_of(counts, times)
    finally:
        logging.disable(logging.NOTSET)


def rows_of(counts: tuple[int, ...], times: int) -> list[Row]:
    """In the database that is there: it is filled."""
    rows: dict[str, Row] = {}
    client, there, today = Client(), 0, timezone.localdate()
    client.force_login(User.objects.create_superuser("bench"))
    works = _works(client)
    for count in counts:
        add_weddings(there, count, today)
        there = count
        for name, work in works.items():
            row = rows.setdefault(name, {"work": f"{WORK}: {name}", "goal": GOAL, "weddings": {}})
            row["weddings"][count] = _timed(work, 1 if name.endswith("first") else times)
    for row in rows.values():
        many, full = row["weddings"][counts[-1]], row["weddings"][counts[-2]]
        row["ratio"] = many["median"] / full["median"]
    return list(rows.values())


def _works(client: Client) -> dict[str, Callable[[], Any]]:
    def page(address: str) -> Callable[[], Any]:
        return lambda: _whole(client, address)

    def calendar() -> bytes:
        return season_calendar(
            timezone.now()
        )  # given out: what nobody has is stamped anew each time

    def first_calendar() -> bytes:
        for each in (entries_of, written):
            each.cache_clear()
        return calendar()

    season = reverse("season")
    return {
        "ahead": page(season),
        "past": page(f"{season}?past"),
        "find many": page(f"{season}?q=a"),
        "find one": page(f"{season}?q=thora+sigurdardottir-0"),
        "find a year": page(f"{season}?q={timezone.localdate().year}"),
        "find nothing": page(f"{season}?q=nobody"),
        "due next": page(reverse("due")),
        "calendar, first": first_calendar,
        "calendar": calendar,
    }


def _whole(client: Client, address: str) -> None:
    response = client.get(address, secure=True)
    if response.status_code != 200:
        raise RuntimeError(f"{address} answered {response.status_code}")


def _timed(work: Callable[[], Any], times: int) -> dict[str, Any]:
    taken = [_once(work) for _each in range(times)]
    with CaptureQueriesContext(connection) as queries:
        work()
    return {"median": median(taken), "worst": max(taken), "queries": len(queries)}


def _once(work: Callable[[], Any]) -> float:
    gc.collect()
    begun = process_time()
    work()
    return process_time() - begun


def head(counts: tuple[int, ...] = COUNTS) -> str:
    columns = "".join(f"{f'{count:,} ms':>10}{'queries':>9}" for count in counts)
    return f"{'all weddings, time of the processor':<36}{columns}{'ratio':>8}{'goal':>7}"


def as_line(row: Row) -> str:
    columns = "".join(
        f"{1000 * each['median']:10.1f}{each['queries']:9}" for each in row["weddings"].values()
    )
    return f"{row['work']:<36}{columns}{row['ratio']:8.2f}{row['goal']:7.1f}"
