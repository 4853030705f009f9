"""`manage.py order FILE.json`: the best order of a list of group photographs."""

import json
import sys
from argparse import ArgumentParser, RawDescriptionHelpFormatter
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser

from planning.compute.order import ProblemError, solve
from planning.compute.order.reading import (
    LEAST_SECONDS,
    MOST_BYTES,
    MOST_GROUPS,
    MOST_PEOPLE,
    MOST_RULES,
    as_json,
    read,
)
from planning.compute.order.telling import tell
from planning.management.one_line import OneLineCommand

HELP = f"""Puts group photographs in the order that frees people soonest, with proof.

The file holds up to {MOST_GROUPS} groups, {MOST_PEOPLE} people and {MOST_RULES} rules.
"seconds" (1.0) limits the search: {LEAST_SECONDS} or more, and up to 1.0
for lists so long that costing them takes a good part of it.

Beside the order the JSON says: "proof" ("proven" or "bounded"), "verdict" (the
same in words, and under which rules), "cost" (presence and walks at their
price), "cut" (what stopped a search without proof: "work", the same on every
machine, or "clock"), and in each of "faults" a "code", a "text" and the "rules"
that clash. "gap" is null while no bound is known."""


class Command(OneLineCommand):
    help = HELP
    requires_system_checks = []

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        kwargs["formatter_class"] = RawDescriptionHelpFormatter
        return super().create_parser(prog_name, subcommand, **kwargs)

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="a JSON file; - for standard input")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            problem = read(contents(options["file"]))
            answer = solve(problem)
        except ProblemError as error:
            raise CommandError(" ".join(str(error).split()), returncode=2) from error
        if options["json"]:
            text = json.dumps(as_json(problem, answer), ensure_ascii=not in_utf8())
        else:
            text = tell(problem, answer)
        self.stdout.write(text if in_utf8() else ascii_only(text))


def contents(name: str) -> str:
    """The text of a file, or of standard input, if it is not too long."""
    try:
        if name == "-":
            data = sys.stdin.buffer.read(MOST_BYTES + 1) if sys.stdin else b""
        else:
            with Path(name).open("rb") as file:
                data = file.read(MOST_BYTES + 1)
        if len(data) > MOST_BYTES:
            raise ProblemError(f"more than {MOST_BYTES // 1_000_000} MB")
        return data.decode("utf-8-sig")
    except OSError as error:
        raise ProblemError(f'cannot read "{name}": {error.strerror}') from error
    except UnicodeDecodeError as error:
        raise ProblemError("the file is not UTF-8 text") from error


def in_utf8() -> bool:
    return (getattr(sys.stdout, "encoding", None) or "utf-8").lower() in ("utf-8", "utf8")


def ascii_only(text: str) -> str:
    """For a terminal that may not know the letters of a name."""
    return text.encode("ascii", "backslashreplace").decode()
