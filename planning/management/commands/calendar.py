"""`manage.py calendar WEDDING --out F.ics`: a wedding's calendar, written to a file."""

import json
from argparse import ArgumentParser
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError

from intake.models import Wedding
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.entries import list_entries
from planning.ics import calendar_bytes


class Command(BaseCommand):
    help = "Write a wedding's calendar to a file (.ics)."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--out", required=True, metavar="F.ics", type=Path)
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, out: Path, **options: object) -> None:
        plan = plan_wedding(load_brief(self._find(wedding)))
        try:
            out.write_bytes(calendar_bytes(plan))
        except OSError as error:
            reason = error.strerror or error
            raise CommandError(f"Cannot write {out}: {reason}", returncode=2) from error
        events = len(list_entries(plan))
        report = json.dumps({"wedding": wedding, "out": str(out), "events": events})
        self.stdout.write(report if options["json"] else f"{out}: {events} entries")

    def _find(self, public_id: str) -> Wedding:
        try:
            found = Wedding.objects.filter(public_id=public_id).first()
        except DatabaseError as error:
            raise CommandError("There is no database yet: run migrate.", returncode=2) from error
        if found is None:
            raise CommandError(f"There is no wedding {public_id!r}.", returncode=2)
        return found
