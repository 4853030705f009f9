import json

import pytest

from planning.compute.network.reading import read
from planning.compute.network.solve import solve
from planning.compute.order import ProblemError
from tests.compute.network.days import at

BLOCK = {"id": "a", "minutes": [10, 20, 30]}


def file(*blocks, **fields):
    return json.dumps({"date": "2026-06-20", "zone": "Europe/Madrid", "blocks": blocks} | fields)


def with_block(**fields):
    return file({**BLOCK, **fields})


def refusal(text):
    with pytest.raises(ProblemError) as told:
        read(text)
    message = str(told.value)
    assert len(message.splitlines()) == 1
    return message


def test_a_file_with_everything():
    problem = read(
        file(
            BLOCK,
            {
                "id": "b",
                "title": "Speeches",
                "kind": "speeches",
                "minutes": [10, 30.0, 60],
                "fixed": "25:10",
                "window": ["24:00", "27:00"],
                "after": ["a"],
                "place": "hall",
                "photographer": False,
                "start_delay": [0, 5, 20],
                "short": 15,
                "droppable": True,
                "importance": 7.5,
            },
            wanted=0.8,
            travel=[{"from": "x", "to": "hall", "minutes": 9}],
            home="x",
        )
    )
    plain, block = problem.blocks
    assert (plain.photographer, plain.droppable, plain.importance, plain.after) == (
        True,
        False,
        5,
        (),
    )
    assert (block.fixed, block.window, block.short) == (at("25:10"), (1440, 1620), 15)
    assert (problem.wanted, problem.home, problem.legs[0].map_minutes) == (0.8, "x", 9)


def test_what_the_photographer_chose_is_read():
    (one,) = read(with_block(movable=False, wished="25:10")).blocks
    assert (one.movable, one.wished) == (False, at("25:10"))


def test_what_is_null_is_as_if_it_were_not_there():
    names = (
        "title",
        "kind",
        "fixed",
        "window",
        "after",
        "place",
        "photographer",
        "start_delay",
        "short",
        "droppable",
        "importance",
        "movable",
        "wished",
    )
    assert read(with_block(**dict.fromkeys(names))) == read(with_block())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "not JSON"),
        ("[1", "not JSON"),
        ("[" * 100_000, "not JSON"),
        ("[]", "the file must be a JSON object"),
        (file(), 'no "blocks"'),
        (file(*[BLOCK] * 101), "more than 100 blocks"),
        (file(BLOCK, travel=[{}] * 201), "more than 200 travel"),
        (file(BLOCK, extra=1), '"extra"'),
        (file(BLOCK, blocks={}), "blocks must be a list"),
        (file(BLOCK, date="2026-02-30"), "date must be"),
        (file(BLOCK, date="1066-10-14"), "date must be"),
        (file(BLOCK, date=None), "date must be"),
        (file(BLOCK, zone="Europe/Atlantis"), "no time zone"),
        (file(BLOCK, zone="../../etc/passwd"), "no time zone"),
        (file(BLOCK, zone="Europe"), "no time zone"),
        (file(BLOCK, zone=""), "zone must be"),
        (file(BLOCK, zone=3), "zone must be"),
        (file(BLOCK, wanted=1), "wanted must be"),
        (file(BLOCK, wanted=float("nan")), "wanted must be"),
        (file(BLOCK, wanted=True), "wanted must be"),
        (file(BLOCK, home=""), "home must be"),
        (file(BLOCK, BLOCK), 'two blocks have the id "a"'),
        (file(7), "block 1 must be a JSON object"),
        (with_block(id="a\u0007"), "control character"),
        (with_block(id="a\ud800"), "half a letter"),
        (with_block(id="a" * 201), "more than 200 letters"),
        (with_block(title=["x"]), "title of block"),
        (with_block(colour="red"), '"colour"'),
        (with_block(minutes=None), "list of three"),
        (with_block(minutes=[10, 20]), "list of three"),
        (with_block(minutes=[30, 20, 40]), "must not fall: least 30, likely 20"),
        (with_block(minutes=[10, 20, 15]), "must not fall"),
        (with_block(minutes=[-5, 20, 30]), "from 0 to 1440, not -5"),
        (with_block(minutes=[1, 2, 1500]), "from 0 to 1440, not 1500"),
        (with_block(minutes=[1, 2, 10**400]), "from 0 to 1440"),
        (with_block(minutes=[1, 2, 1e300]), "from 0 to 1440"),
        (with_block(minutes=[1, 2.5, 3]), "whole minutes"),
        (with_block(minutes=[1, 2, float("inf")]), "whole minutes"),
        (with_block(minutes=[1, float("nan"), 3]), "whole minutes"),
        (with_block(minutes=[1, "2", 3]), "whole minutes"),
        (with_block(minutes=[False, True, True]), "whole minutes"),
        (with_block(fixed="noon"), "a time must be like 14:00"),
        (with_block(fixed="14:60"), "a time must be like 14:00"),
        (with_block(fixed="48:00"), "up to 47:59"),
        (with_block(fixed="-1:00"), "a time must be like 14:00"),
        (with_block(fixed="１４:00"), "a time must be like 14:00"),
        (with_block(fixed=14), "a time must be like 14:00"),
        (with_block(window=["20:00", "19:00"]), "ends before it starts: 20:00 to 19:00"),
        (with_block(window=["20:00"]), "list of two"),
        (with_block(after=["b"]), 'comes after "b", which is no block'),
        (with_block(after="b"), "after must be a list"),
        (with_block(after=["a"]), 'in a circle: "a" waits for itself'),
        (with_block(start_delay=[5, 0, 0]), "start_delay of block"),
        (with_block(short=25), "longer than its likely 20"),
        (with_block(short=-1), "short of block"),
        (with_block(photographer="yes"), "photographer of block"),
        (with_block(droppable=1), "droppable of block"),
        (with_block(movable="no"), "movable of block"),
        (with_block(wished="soon"), "a time must be like 14:00"),
        (with_block(importance=0), "from 1 to 10"),
        (with_block(importance=float("nan")), "from 1 to 10"),
        (file(BLOCK, travel=[{"from": "x", "to": "y"}]), "minutes of travel 1"),
        (file(BLOCK, travel=[{"from": "x", "to": "x", "minutes": 1}]), "to itself"),
        (file(BLOCK, travel=[{"from": "x", "to": "y", "minutes": 1}] * 2), "told twice"),
    ],
)  # fmt: skip
def test_what_is_amiss_is_told_in_one_line(text, told):
    assert told in refusal(text)


def test_a_circle_is_told_with_its_names():
    blocks = [{**BLOCK, "after": ["b"]}, {**BLOCK, "id": "b", "title": "Cake", "after": ["a"]}]
    assert 'after goes in a circle: "a" and "Cake" wait for each other' in refusal(file(*blocks))


def test_a_time_the_clocks_skip_is_told_and_counted_from_before():
    problem = read(file({**BLOCK, "fixed": "26:30"}, date="2026-03-28"))
    assert problem.blocks[0].fixed == at("26:30")
    (fault,) = problem.oddities
    assert fault.code == "skipped_time"
    assert "the clocks skip 26:30 that night: 27:30 is meant" in fault.text
    assert solve(problem).verdict == "fits"


def test_a_time_that_comes_twice_is_told():
    problem = read(file({**BLOCK, "fixed": "26:30"}, date="2026-10-24"))
    assert [fault.code for fault in problem.oddities] == ["twice_time"]


def test_a_date_the_zone_left_out_makes_no_trouble():
    """Samoa had no 30 December 2011."""
    problem = read(file({**BLOCK, "fixed": "12:00"}, date="2011-12-30", zone="Pacific/Apia"))
    assert solve(problem).planned[0].start is not None
