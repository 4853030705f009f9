"""A command that says what is wrong in one line on standard error, and exits with 2."""

from __future__ import annotations

import sys
from functools import partial
from typing import Any, NoReturn

from django.core.management.base import (
    BaseCommand,
    CommandError,
    CommandParser,
    SystemCheckError,
)

LONGEST, END = 1_000, 250  # letters of a line, and of its end, where the reason stands
JOINERS = "\u200c\u200d"  # within words of some scripts, and within emoji


class OneLineCommand(BaseCommand):
    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        parser = super().create_parser(prog_name, subcommand, **kwargs)
        parser.error = partial(refuse, subcommand)
        return parser

    def execute(self, *args: Any, **options: Any) -> str | None:
        """Whatever a command cannot use is told alike, in words that were typed or Django's."""
        for name, value in options.items():
            if "\0" in str(value):  # not from a shell; the system takes no such name or text
                raise CommandError(f"{name} holds a NUL.", returncode=2)
        try:
            return super().execute(*args, **options)
        except SystemCheckError:  # of the place as a whole, each with its hint
            raise
        except CommandError as error:
            raise CommandError(one_line(str(error)), returncode=2) from error


def refuse(command: str, message: str) -> NoReturn:
    """Argparse's own complaints, in one line like all others."""
    sys.stderr.write(f"{command}: {one_line(message)}\n")
    raise SystemExit(2)


def one_line(text: str) -> str:
    """A text as one line: a terminal finds nothing in it to obey, and a person its end."""
    line = " ".join(text.split())
    if len(line) > LONGEST:
        line = f"{line[: LONGEST - END]} ... {line[-END:]}"
    return "".join(c if c.isprintable() or c in JOINERS else ascii(c)[1:-1] for c in line)
