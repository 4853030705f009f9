"""`manage.py order FILE.json`: the best order of a list of group photographs."""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError

from planning.compute.order import ProblemError, solve
from planning.compute.order.reading import as_json, read
from planning.compute.order.telling import tell
from planning.management.one_line import OneLineCommand


class Command(OneLineCommand):
    help = "Puts group photographs in the order that frees people soonest, with proof."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="a JSON file; - for standard input")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        path = Path("/dev/stdin" if options["file"] == "-" else options["file"])
        try:
            problem = read(path.read_text(encoding="utf-8-sig"))
            answer = solve(problem)
        except OSError as error:
            raise CommandError(f"cannot read {path}: {error.strerror}", returncode=2) from error
        except (UnicodeDecodeError, ProblemError) as error:
            raise CommandError(" ".join(str(error).split()), returncode=2) from error
        if options["json"]:
            self.stdout.write(json.dumps(as_json(answer), ensure_ascii=False))
        else:
            self.stdout.write(tell(problem, answer))
