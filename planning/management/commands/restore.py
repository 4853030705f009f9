"""`manage.py restore F`: what a backup holds comes back."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser

from planning.backup.archive import BackupError
from planning.backup.restore import Restored, restore
from planning.management.one_line import OneLineCommand, one_line


class Command(OneLineCommand):
    help = (
        "Put back what `backup` wrote: into an empty place, or with --replace in the place of what "
        "is here. All of the file is checked before anything changes. A backup of an earlier "
        "version is brought up to date, and one made on SQLite goes into PostgreSQL and the other "
        "way round. Stop the server first, and start it again afterwards; everybody signs in anew."
    )
    # It may be run because the database is damaged.
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", metavar="F", type=Path)
        parser.add_argument(
            "--replace",
            action="store_true",
            help="take the place of what is here, which is kept under backups/ in the data folder",
        )
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, file: Path, replace: bool, **options: Any) -> None:
        try:
            done = restore(file, replace)
        except BackupError as error:
            raise CommandError(str(error), returncode=2) from error
        self.stdout.write(_as_json(done) if options["json"] else _in_words(done))


def _as_json(done: Restored) -> str:
    return json.dumps(
        {
            "made_at": done.manifest.made_at,
            "weddings": done.manifest.weddings,
            "pictures": done.pictures,
            "links_open": done.links_open,
            "before": str(done.before) if done.before else None,
        }
    )


def _in_words(done: Restored) -> str:
    made = done.manifest
    lines = [
        one_line(
            f"Put back as of {made.made_at}: {made.weddings} weddings, "
            f"{done.pictures} files of pictures."
        )
    ]
    if done.before:
        lines.append(f"What was here before is kept: {done.before}")
    if not done.links_open:
        lines.append(
            "The links that couples have open nothing here, since the secret key is another one. "
            "Set DJANGO_SECRET_KEY to the one they were made with, or send new links."
        )
    lines.append("Weddings that were erased since are back: erase them again (`retention` helps).")
    lines.append("Start the server again. Everybody signs in anew.")
    return "\n".join(lines)
