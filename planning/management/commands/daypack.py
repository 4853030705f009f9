"""`manage.py daypack WEDDING --out F.pdf`: a wedding's day pack, written to a file."""

from __future__ import annotations

import json
from pathlib import Path

from django.core.management.base import CommandError, CommandParser

from planning.agreed_words import pack_state
from planning.management.find import find_plan
from planning.management.one_line import OneLineCommand
from planning.pdf import PangoMissingError, day_pack_pdf
from studio.models import Studio


class Command(OneLineCommand):
    help = "Write a wedding's day pack to a file (PDF)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--out", required=True, metavar="F.pdf", type=Path)
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, out: Path, **options: object) -> None:
        plan = find_plan(wedding)
        try:
            pdf = day_pack_pdf(plan, Studio.get(), pack_state(plan))
            out.write_bytes(pdf)
        except PangoMissingError as missing:
            raise CommandError(str(missing), returncode=2) from missing
        except OSError as error:
            reason = error.strerror or error
            raise CommandError(f"Cannot write {out}: {reason}", returncode=2) from error
        report = json.dumps({"wedding": wedding, "out": str(out), "bytes": len(pdf)})
        self.stdout.write(report if options["json"] else f"{out}: {len(pdf)} bytes")
