import json
import re
from dataclasses import replace

import pytest

from planning.compute.network.reading import read
from planning.compute.network.simulate import CEILING
from planning.compute.network.solve import solve
from planning.compute.network.telling import as_json, probability, tell
from planning.compute.network.words import in_hundred
from tests.compute.network.days import church_day, full_day


@pytest.mark.parametrize(
    ("chance", "told"),
    [
        (1, "over 99 %"),
        (0.9951, "over 99 %"),
        (0.995, "over 99 %"),
        (0.9949, "99 %"),
        (0.904, "90 %"),
        (0, "under 1 %"),
    ],
)
def test_no_chance_is_told_as_certain(chance, told):
    assert in_hundred(chance) == told


def test_no_probability_is_one():
    assert probability(1.0) == CEILING == 0.9985
    assert probability(0.9) == 0.9


def test_the_json_has_what_the_design_says():
    problem = full_day()
    told = as_json(problem, solve(problem))
    assert told["verdict"] in ("risky", "fits")
    assert set(told["blocks"][0]) >= {"id", "earliest", "latest", "start", "end"}
    assert [one["id"] for one in told["blocks"]] == [block.key for block in problem.blocks]
    assert set(told["stretches"][0]) == {"from", "to", "slack_minutes"}
    assert {one["id"] for one in told["promises"]} == {
        "ceremony",
        "call",
        "speeches",
        "dance",
        "guests",
    }
    assert all(0 <= one["probability"] < 1 for one in (*told["promises"], *told["cuts"]))
    assert {one["late"] for one in told["cuts"]} == {15, 30, 45, 60, 90}
    assert re.fullmatch(r"\d\d:\d\d", told["leave_home"])
    json.dumps(told, allow_nan=False)


def as_file(problem, change=None):
    """The day of the notes as the command reads it, with the fields of a repair put in."""
    shown = problem.hours.shown
    blocks = [
        {
            "id": b.key,
            "minutes": [b.law.least, b.law.likely, b.law.most],
            "fixed": None if b.fixed is None else shown(b.fixed),
            "place": b.place,
            "after": list(b.after),
        }
        | (change or {}).get(b.key, {})
        for b in problem.blocks
    ]
    travel = [
        {"from": x.origin, "to": x.destination, "minutes": x.map_minutes} for x in problem.legs
    ]
    return json.dumps(
        {"date": "2026-06-20", "zone": "Europe/Madrid", "blocks": blocks, "travel": travel}
    )


def test_the_change_of_a_repair_can_be_put_into_the_file():
    problem = read(as_file(church_day()))
    (conflict,) = as_json(problem, solve(problem))["conflicts"]
    assert conflict["short_by"] == 14
    for repair in conflict["repairs"]:
        mended = read(as_file(church_day(), repair["change"]))
        assert not solve(mended).conflicts


def test_as_lines_it_says_the_verdict_first_and_every_conflict_in_one_sum():
    problem = church_day()
    lines = tell(problem, solve(problem)).splitlines()
    assert lines[0] == "impossible"
    assert lines[1].endswith("14 minutes short")
    assert lines[2].startswith("  - ask to move")


def test_where_no_cut_reaches_it_the_line_says_whom_to_ask():
    problem = full_day()
    told = tell(problem, solve(problem))
    assert 'no cut reaches it: ask to move "call"' in told
    assert 'nothing to cut: "ceremony" in time' in told


def test_a_time_that_others_hold_is_asked_about_and_not_moved():
    problem = full_day()
    blocks = tuple(replace(b, movable=b.key != "call") for b in problem.blocks)
    problem = replace(problem, blocks=blocks)
    told = tell(problem, solve(problem))
    assert 'no cut reaches it: only a move of "call" would do: ask whether it can' in told
    assert 'ask to move "call"' not in told
