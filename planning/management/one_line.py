"""A command that says what is wrong in one line on standard error, and exits with 2."""

from __future__ import annotations

import sys
from functools import partial
from typing import Any, NoReturn

from django.core.management.base import BaseCommand, CommandParser


class OneLineCommand(BaseCommand):
    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        parser = super().create_parser(prog_name, subcommand, **kwargs)
        parser.error = partial(refuse, subcommand)
        return parser


def refuse(command: str, message: str) -> NoReturn:
    """Argparse's own complaints, in one line like all others."""
    sys.stderr.write(f"{command}: {' '.join(message.split())}\n")
    raise SystemExit(2)
