"""`manage.py calendar WEDDING --out F.ics`: a wedding's calendar, written to a file."""

import json
from argparse import ArgumentParser
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

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
        found = Wedding.objects.filter(public_id=wedding).first()
        if found is None:
            raise CommandError(f"There is no wedding {wedding!r}.", returncode=2)
        plan = plan_wedding(load_brief(found))
        try:
            out.write_bytes(calendar_bytes(plan))
        except OSError as error:
            reason = error.strerror or error
            raise CommandError(f"Cannot write {out}: {reason}", returncode=2) from error
        events = len(list_entries(plan))
        report = json.dumps({"wedding": wedding, "out": str(out), "events": events})
        self.stdout.write(report if options["json"] else f"{out}: {events} entries")
