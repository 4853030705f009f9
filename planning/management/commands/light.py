"""The light of a day at a place: `manage.py light --at "LAT,LON" --zone Area/City --date D`."""

import json
from argparse import ArgumentParser
from collections.abc import Iterator
from datetime import date, datetime, time
from re import compile as pattern
from typing import Any

from django.core.management.base import CommandError

from planning.compute.clock import clock_quirk
from planning.compute.light import light_report
from planning.compute.place_text import pair_text, parse_place
from planning.compute.values import Spot
from planning.management.one_line import OneLineCommand
from planning.spot_lines import POLE
from planning.spot_zone import are_one, zone_at


class Command(OneLineCommand):
    help = "Print when sun and moon come and go at a place, and where the sun stands."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        # A southern latitude begins with a minus, which is no option.
        parser._negative_number_matcher = pattern(r"^-\d")
        parser.add_argument("--at", required=True, help='"LAT,LON" or any coordinates as pasted')
        parser.add_argument("--zone", required=True, help="the place's time zone, as Europe/Madrid")
        parser.add_argument("--date", required=True, help="YYYY-MM-DD")
        parser.add_argument("--time", help="HH:MM on that date's local clock")
        parser.add_argument("--facing", help="bearing people face, degrees from true north")
        parser.add_argument("--visit", help="date of the venue visit, YYYY-MM-DD; needs --time")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            spot = parse_place(options["at"])
            report = light_report(
                spot,
                options["zone"],
                read(date.fromisoformat, options["date"], "date like 2026-06-20"),
                read(clock, options["time"], "time like 17:30"),
                read(float, options["facing"], "bearing in degrees"),
                read(date.fromisoformat, options["visit"], "date like 2026-06-20"),
            )
        except ValueError as problem:
            raise CommandError(str(problem), returncode=2) from None
        for note in notes(spot, options["zone"], report["now"] and report["now"]["at"]):
            self.stderr.write(note)
        text = json.dumps(report, ensure_ascii=False) if options["json"] else in_lines(report)
        self.stdout.write(text)


def notes(spot: Spot, zone: str, at: str | None) -> Iterator[str]:
    """What is no error but should be looked at: a line each, beside the answer."""
    there = zone_at(spot)
    swapped = Spot(spot.longitude, spot.latitude) if abs(spot.longitude) <= 90 else None
    if abs(spot.latitude) > POLE:
        yield "note: this is a pole, where every way is the same and the sun rises once a year."
    elif swapped and not (there and are_one(there, zone)) and is_in(swapped, zone):
        pair = pair_text(swapped)
        yield f"note: the other way round, {pair}, it is in {zone}: were the two swapped?"
    elif there is None:
        yield "note: on our map of time zones this is open sea; are the figures right?"
    elif not are_one(there, zone):
        yield f"note: the clocks there go by {there}, not by {zone}."
    moment = datetime.fromisoformat(at) if at else None
    if moment and clock_quirk(moment, moment.time(), zone) == "twice":
        yield f"note: the clocks show {at[11:16]} twice that day; this is the first."


def is_in(spot: Spot, zone: str) -> bool:
    found = zone_at(spot)
    return bool(found) and are_one(found, zone)


def read(kind: Any, text: str | None, wanted: str) -> Any:
    """`text` as a date, time or number; None stays None. ValueError says what is wanted."""
    try:
        return None if text is None else kind(text)
    except ValueError:
        raise ValueError(f"{text!r} is no {wanted}.") from None


def clock(text: str) -> time:
    return datetime.strptime(text, "%H:%M").time()


def in_lines(report: dict[str, Any]) -> str:
    """The report for people: a line for each event, then what else was asked."""
    lines = [f"{e['at'] or e['reason']:<26} {e['kind']}" for e in report.pop("events")]
    for name, part in report.items():
        figures = [f"{k} {v}" for k, v in (part or {}).items() if not isinstance(v, dict)]
        lines += [f"{name}: {', '.join(figures)}"] if part else []
    return "\n".join(lines)
