"""`manage.py calendar WEDDING --out F.ics`: a wedding's calendar, written to a file."""

import json
from pathlib import Path

from django.core.management.base import CommandParser

from planning.management.find import find_wedding
from planning.management.one_line import OneLineCommand, one_line
from planning.management.out_file import write_out
from planning.season_calendar import wedding_calendar


class Command(OneLineCommand):
    help = "Write a wedding's calendar to a file (.ics)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--out", required=True, metavar="F.ics", type=Path)
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, out: Path, **options: object) -> None:
        calendar, events = wedding_calendar(find_wedding(wedding))
        write_out(out, calendar)
        report = json.dumps({"wedding": wedding, "out": str(out), "events": events})
        self.stdout.write(report if options["json"] else one_line(f"{out}: {events} entries"))
