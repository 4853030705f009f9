"""`manage.py backup F`: all that a studio has here, in one file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser

from planning.backup.archive import KEY, BackupError, Manifest
from planning.backup.make import make_backup
from planning.management.one_line import OneLineCommand, one_line


class Command(OneLineCommand):
    help = (
        "Write the database and every picture to one zip file, while people go on working. In it: "
        "all weddings, accounts and settings, and the secret key that this folder keeps, so that "
        "couples' links open again where it is put back. Not in it: who is signed in, a key from "
        "DJANGO_SECRET_KEY, and whatever else comes from the environment. Whoever has the file "
        "can read everything and, with the key, sign in: keep it as you keep the laptop, and a "
        "copy somewhere else."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", metavar="F", type=Path, help="such as foreday.zip")
        parser.add_argument(
            "--without-key", action="store_true", help="for a place that others can read"
        )
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, file: Path, **options: Any) -> None:
        try:
            made = make_backup(file, with_key=not options["without_key"])
        except BackupError as error:
            raise CommandError(str(error), returncode=2) from error
        self.stdout.write(_as_json(made, file) if options["json"] else _in_words(made, file))


def _as_json(made: Manifest, file: Path) -> str:
    return json.dumps(
        {
            "out": str(file),
            "bytes": file.stat().st_size,
            "weddings": made.weddings,
            "pictures": _pictures(made),
            "key": KEY in made.members,
            "missing": made.missing,
        }
    )


def _in_words(made: Manifest, file: Path) -> str:
    lines = [one_line(f"{file}: {made.weddings} weddings, {_pictures(made)} files of pictures.")]
    if KEY not in made.members:
        lines.append("Without the secret key: keep that apart, or every couple needs a new link.")
    if made.missing:
        lines.append(f"{len(made.missing)} pictures have no file any more, and are not in it.")
    return "\n".join(lines)


def _pictures(made: Manifest) -> int:
    return sum(name.startswith("pictures/") for name in made.members)
