"""`manage.py migrate`: Django's own, and a backup first where a migration waits.

Where a newer program was at the database, nothing is done to it.
"""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandError, CommandParser
from django.core.management.commands import migrate
from django.db import DEFAULT_DB_ALIAS

from planning.backup.archive import BackupError
from planning.backup.own import before_migrating
from planning.management.noted_at_once import NotedAtOnce
from planning.management.one_line import OneLineCommand
from studio import newer

migrate.MigrationExecutor = NotedAtOnce  # Django's command has no other way to be given one
LOOKS_ONLY = ("plan", "check_unapplied")


class Command(OneLineCommand, migrate.Command):
    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument(
            "--skip-backup",
            action="store_true",
            help="migrate without the backup into the data folder that is made otherwise",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        if options["database"] == DEFAULT_DB_ALIAS and (why := newer.told()):
            raise CommandError(f"Nothing was migrated. {why}", returncode=2)
        skips = options.pop("skip_backup") or any(options[each] for each in LOOKS_ONLY)
        if options["database"] == DEFAULT_DB_ALIAS and not skips:
            self._back_up(options["verbosity"])
        super().handle(*args, **options)

    def _back_up(self, verbosity: int) -> None:
        try:
            made = before_migrating()
        except (BackupError, OSError) as error:
            raise CommandError(
                f"Nothing was migrated, since the backup before it failed: {error} "
                "--skip-backup migrates without one.",
                returncode=2,
            ) from error
        if made and verbosity:
            self.stdout.write(f"Kept as it was: {made}")
