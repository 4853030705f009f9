"""`manage.py bench`: what was measured just now, with the peers that are installed."""

import json
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import CommandError

from planning.bench import bags, days, groups, light, papers, season
from planning.bench.peer import cp_model
from planning.management.one_line import OneLineCommand


class Command(OneLineCommand):
    help = "Measures the computing; peers come with `uv sync --group bench`."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--only", default="", help="rows whose title contains this")
        parser.add_argument("--lists", type=int, default=10, help="invented lists a row")
        parser.add_argument("--seconds", type=float, default=groups.LIMIT, help="limit a list")
        parser.add_argument("--peer-seconds", type=float, default=10.0, help="0 for no peer")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        lists, seconds, peer_seconds = (options[n] for n in ("lists", "seconds", "peer_seconds"))
        if not (
            1 <= lists <= 1000 and 0.01 <= seconds <= 600 and 0 <= options["peer_seconds"] <= 600
        ):
            raise CommandError("give 1 to 1000 lists, and seconds from 0.01 to 600.", returncode=2)
        rows, sheets = [], []
        if options["only"] in light.WORK:
            sheets.append(light.measured(light.works()))
            if not options["json"]:
                self.stdout.write("\n".join([light.HEAD, *light.as_lines(sheets[0]), ""]))
        packs = self.measure_papers(options)
        timeline = self.measure_days(options)
        bag = self.measure_bags(options)
        seasons = self.measure_seasons(options)
        if not options["json"] and cp_model is None:
            self.stdout.write("(no CP-SAT here: uv sync --group bench)")
        for work in groups.works(lists, seconds):
            if options["only"] in work.title:
                if not options["json"] and not rows:
                    self.stdout.write(groups.HEAD)
                rows.append(groups.measured(work, peer_seconds))
                if not options["json"]:
                    self.stdout.write(groups.as_line(rows[-1]))
                    self.stdout.flush()
        if options["json"]:
            told = {"group_order": rows, "light": sheets, "timeline": timeline, "bag": bag}
            told |= {"papers": packs, "season": seasons}
            self.stdout.write(json.dumps(told))

    def measure_papers(self, options: dict[str, Any]) -> list[dict[str, Any]]:
        if options["only"] not in papers.WORK:
            return []
        rows = papers.measured()
        if not options["json"]:
            self.stdout.write("\n".join([papers.HEAD, *map(papers.as_line, rows), ""]))
        return rows

    def measure_days(self, options: dict[str, Any]) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = []
        for count, problems in days.works(options["lists"]):
            if options["only"] not in days.title(count):
                continue
            if not options["json"] and not rows:
                self.stdout.write(days.HEAD)
            rows.append(days.measured(count, problems, options["peer_seconds"]))
            if not options["json"]:
                self.stdout.write(days.as_line(rows[-1]))
                self.stdout.flush()
        if rows and not options["json"]:
            self.stdout.write("")
        return rows

    def measure_bags(self, options: dict[str, Any]) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = []
        for count in bags.SIZES:
            if options["only"] not in bags.title(count):
                continue
            if not options["json"] and not rows:
                self.stdout.write(bags.HEAD)
            rows.append(bags.measured(count, options["lists"], options["peer_seconds"]))
            if not options["json"]:
                self.stdout.write(bags.as_line(rows[-1]))
                self.stdout.flush()
        if rows and not options["json"]:
            self.stdout.write("")
        return rows

    def measure_seasons(self, options: dict[str, Any]) -> list[dict[str, Any]]:
        rows = season.measured() if options["only"] in season.WORK else []
        if rows and not options["json"]:
            self.stdout.write("\n".join([season.head(), *map(season.as_line, rows), ""]))
        return rows
