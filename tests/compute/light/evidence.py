"""The published check values of tests/evidence/light.json, each with its source."""

import json
from datetime import date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from planning.compute.values import Spot

FILE = Path(__file__).parents[2] / "evidence" / "light.json"
VALUES = {value["id"]: value for value in json.loads(FILE.read_text("utf-8"))["values"]}


def entries(*kinds):
    """Pytest parameters for every published value of these kinds."""
    return [pytest.param(v, id=v["id"]) for v in VALUES.values() if v["kind"] in kinds]


def spot_of(entry):
    return Spot(entry["inputs"]["lat"], entry["inputs"]["lon"])


def zone_of(entry):
    hours, minutes = entry["inputs"]["utc_offset"].split(":")
    sign = -1 if hours.startswith("-") else 1
    return timezone(timedelta(hours=int(hours), minutes=sign * int(minutes)))


def day_of(entry):
    return date.fromisoformat(entry["inputs"]["date"])


def seconds_between(at, clock):
    """Seconds from the clock time "HH:MM[:SS]" on the same date to `at`."""
    printed = datetime.combine(at.date(), datetime.strptime(clock.zfill(5), _form(clock)).time())
    return (at.replace(tzinfo=None) - printed).total_seconds()


def _form(clock):
    return "%H:%M:%S" if clock.count(":") == 2 else "%H:%M"


def minute_of(at):
    """The minute an almanac prints: HHMM, rounded."""
    return f"{at + timedelta(seconds=30):%H%M}"
