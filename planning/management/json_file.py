"""A command that reads a person's JSON file and answers in words, or as one JSON object."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser, RawDescriptionHelpFormatter
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser

from planning.compute.json_text import ProblemError
from planning.management.one_line import OneLineCommand


class JsonFileCommand(OneLineCommand):
    requires_system_checks = []
    most_bytes: int

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        kwargs["formatter_class"] = RawDescriptionHelpFormatter
        return super().create_parser(prog_name, subcommand, **kwargs)

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="a JSON file; - for standard input")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            answer = self.answer(contents(options["file"], self.most_bytes), options["json"])
        except ProblemError as error:
            raise CommandError(" ".join(str(error).split()), returncode=2) from error
        if options["json"]:
            answer = json.dumps(answer, ensure_ascii=not in_utf8())
        self.stdout.write(answer if in_utf8() else ascii_only(answer))

    def answer(self, text: str, as_json: bool) -> Any:
        """What the file's text comes to, as values for JSON or in words; or ProblemError."""
        raise NotImplementedError


def contents(name: str, most_bytes: int) -> str:
    """The text of a file, or of standard input, if it is not too long."""
    try:
        if name == "-":
            data = sys.stdin.buffer.read(most_bytes + 1) if sys.stdin else b""
        else:
            with Path(name).open("rb") as file:
                data = file.read(most_bytes + 1)
        if len(data) > most_bytes:
            raise ProblemError(f"more than {most_bytes // 1_000_000} MB")
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
