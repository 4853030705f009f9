"""`manage.py calendar WEDDING --out F.ics`: a wedding's calendar, written to a file."""

import json
from pathlib import Path

from django.core.management.base import CommandError, CommandParser

from planning.entries import list_entries
from planning.ics import calendar_bytes
from planning.management.find import find_plan
from planning.management.one_line import OneLineCommand


class Command(OneLineCommand):
    help = "Write a wedding's calendar to a file (.ics)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--out", required=True, metavar="F.ics", type=Path)
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, out: Path, **options: object) -> None:
        plan = find_plan(wedding)
        try:
            out.write_bytes(calendar_bytes(plan))
        except OSError as error:
            reason = error.strerror or error
            raise CommandError(f"Cannot write {out}: {reason}", returncode=2) from error
        events = len(list_entries(plan))
        report = json.dumps({"wedding": wedding, "out": str(out), "events": events})
        self.stdout.write(report if options["json"] else f"{out}: {events} entries")
