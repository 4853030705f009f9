"""`manage.py erase WEDDING`: takes a wedding away for good, and says what is left of it."""

from __future__ import annotations

import json
import sys
from typing import Any

from django.core.management.base import CommandError, CommandParser

from planning.erasing import NotErasedError, Survey, erase, overwrite_deleted, survey
from planning.erasing_words import gone_lines, stays_lines
from planning.management.find import find_wedding
from planning.management.one_line import OneLineCommand


class Command(OneLineCommand):
    help = (
        "Erase a wedding: the couple's answers, pictures and link, and everything that was planned "
        "or agreed. It says what goes and what stays, and asks first: type the public id, or give "
        "--yes. With --look nothing is erased."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--yes", action="store_true", help="do not ask")
        parser.add_argument("--look", action="store_true", help="only say what would be erased")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, **options: Any) -> None:
        row = find_wedding(wedding)
        found = survey(row)
        if not options["json"]:
            self._say(found, wedding)
        if options["look"]:
            return self._report(found, wedding, False, options["json"])
        if not options["yes"]:
            _ask(wedding)
        try:
            found = erase(row)
        except NotErasedError as error:
            raise CommandError(str(error), returncode=2) from error
        return self._report(found, wedding, True, options["json"])

    def _say(self, found: Survey, wedding: str) -> None:
        lines = [f"{wedding}. What goes:", *(f"- {line}" for line in gone_lines(found))]
        lines += ["What stays:", *(f"- {line}" for line in stays_lines(found))]
        self.stdout.write("\n".join(lines))

    def _report(self, found: Survey, wedding: str, erased: bool, as_json: bool) -> None:
        written_over = erased and overwrite_deleted()
        if as_json:
            values = {"wedding": wedding, "erased": erased, "rows": found.rows}
            values |= {"files": len(found.files), "entries": found.entries}
            values |= {"backups": list(found.backups), "written_over": written_over}
            self.stdout.write(json.dumps(values))
        elif not erased:
            self.stdout.write("Nothing was erased: this was only a look.")
        else:
            self.stdout.write(f"Erased: {found.total} rows and {len(found.files)} files.")
            if not written_over:
                self.stdout.write(
                    "The database file could not be written anew just now: it may hold traces "
                    "until `manage.py retention --erase` has run."
                )


def _ask(wedding: str) -> None:
    """From a person at a terminal, the public id; from a script, --yes."""
    if not sys.stdin or not sys.stdin.isatty():
        raise CommandError("Nothing was erased: give --yes, or --look.", returncode=2)
    # Not on standard output, which may be JSON for a program.
    print(f"Type {wedding} to erase it for good: ", end="", file=sys.stderr, flush=True)
    try:
        typed = sys.stdin.readline().strip()
    except UnicodeDecodeError:
        typed = ""
    if typed != wedding:
        raise CommandError("Nothing was erased.", returncode=2)
