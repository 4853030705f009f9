"""`manage.py order FILE.json`: the best order of a list of group photographs."""

from typing import Any

from planning.compute.order import solve
from planning.compute.order.reading import (
    LEAST_SECONDS,
    MOST_BYTES,
    MOST_GROUPS,
    MOST_PEOPLE,
    MOST_RULES,
    read,
)
from planning.compute.order.reading import as_json as in_json
from planning.compute.order.telling import tell
from planning.management.json_file import JsonFileCommand

HELP = f"""Puts group photographs in the order that frees people soonest, with proof.

The file holds up to {MOST_GROUPS} groups, {MOST_PEOPLE} people and {MOST_RULES} rules.
"seconds" (1.0) limits the search: {LEAST_SECONDS} or more, and up to 1.0
for lists so long that costing them takes a good part of it.

Beside the order the JSON says: "proof" ("proven" or "bounded"), "verdict" (the
same in words, and under which rules), "cost" (presence and walks at their
price), "cut" (what stopped a search without proof: "work", the same on every
machine, or "clock"), and in each of "faults" a "code", a "text" and the "rules"
that clash. "gap" is null while no bound is known."""


class Command(JsonFileCommand):
    help = HELP
    most_bytes = MOST_BYTES

    def answer(self, text: str, as_json: bool) -> Any:
        problem = read(text)
        answer = solve(problem)
        return in_json(problem, answer) if as_json else tell(problem, answer)
