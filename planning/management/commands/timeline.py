"""`manage.py timeline FILE.json`: does the day hold, why not, how sure, and what to cut."""

from typing import Any

from planning.compute.network.reading import MOST_BLOCKS, MOST_BYTES, MOST_LEGS, MOST_MINUTES, read
from planning.compute.network.solve import solve
from planning.compute.network.telling import as_json as in_json
from planning.compute.network.telling import tell
from planning.management.json_file import JsonFileCommand

HELP = f"""Tells whether a day holds, why not, how likely, and what to cut when it runs late.

The file holds up to {MOST_BLOCKS} blocks of 0 to {MOST_MINUTES} whole minutes
and {MOST_LEGS} legs of "travel". Clock times may pass 24:00, up to 47:59.

"minutes" of a leg are what the map says: a third is added and rounded up (25 are
planned as 34). A leg serves both ways unless the way back is told too. Two of the
photographer's blocks in different places need one between them; without it the
verdict is "does not fit", nothing is promised, and "faults" says which is missing. A
block without a place happens where people are; a block of kind "travel" is itself
the drive. Blocks that no "after", fixed time or window puts in order come as listed.

A block with "movable": false is a fixed time others hold, like a registrar's: a move of
it is offered only where nothing else would do, as a repair of the "kind" "ask".
"wished" is the start the photographer chose: kept where the day allows, else the
nearest possible; it makes no conflict and no promise.

Times are whole minutes on the clock of that date, the night after counted on from
24:00; "start_at" and "end_at" are exact on nights when the clocks change. "latest" is
null where nothing holds a block; all times are null when the day does not fit.
"promises" are the fixed times, "windows" the blocks with a window; the chances come
from 2,000 simulated days and are never told as certain. "holds" is the greatest
share such that the day holds even if every block of the photographer's and every drive
takes its time of so many days in all (null below the likely minutes). In "conflicts", "change"
gives the new fields of blocks; "drop" leaves one out. In "cuts", "late" counts from
the planned end of "after", and "keeps" is the fixed time (after the last one: the
window) to be kept; where "reached" is false, "otherwise" says what is left: "move" it,
"ask" those who hold it, or "miss" its window. "tame" lists the blocks
whose exact likely minutes would help the least sure fixed time most."""


class Command(JsonFileCommand):
    help = HELP
    most_bytes = MOST_BYTES

    def answer(self, text: str, as_json: bool) -> Any:
        problem = read(text)
        answer = solve(problem)
        return in_json(problem, answer) if as_json else tell(problem, answer)
