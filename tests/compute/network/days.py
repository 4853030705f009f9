"""Days for the tests, and readings of them that share nothing with the code under test."""

import json
from datetime import date
from itertools import pairwise
from pathlib import Path
from zoneinfo import ZoneInfo

from planning.compute.network import Block, Hours, Law, Problem
from planning.compute.values import Leg

PUBLISHED = json.loads((Path(__file__).parents[2] / "evidence" / "timeline.json").read_text())
SUMMER = Hours(date(2026, 6, 20), ZoneInfo("Europe/Madrid"))


def at(clock):
    hour, minute = clock.split(":")
    return 60 * int(hour) + int(minute)


def block(key, minutes=30, **fields):
    law = Law(*minutes) if isinstance(minutes, tuple) else Law(minutes, minutes, minutes)
    if isinstance(fields.get("fixed"), str):
        fields["fixed"] = at(fields["fixed"])
    if "window" in fields:
        fields["window"] = tuple(at(clock) for clock in fields["window"])
    if "delay" in fields:
        fields["start_delay"] = Law(*fields.pop("delay"))
    return Block(key, law, **fields)


def day(*blocks, legs=(), hours=SUMMER, **fields):
    return Problem(hours, blocks, tuple(Leg(*leg) for leg in legs), **fields)


def church_day(meal="15:30", groups=40):
    """The sum of the notes: ceremony until 14:30, groups 40, drive 25, meal at 15:30."""
    return day(
        block("ceremony", 30, title="Ceremony", fixed="14:00", place="church"),
        block("groups", groups, title="Groups", place="church", after=("ceremony",)),
        block("meal", 90, title="Meal", fixed=meal, place="venue", after=("groups",)),
        legs=[("church", "venue", 25)],
    )


def full_day(**fields):
    """An invented wedding with a church, a venue and a garden."""
    return day(
        block("setup", (10, 15, 25), place="house"),
        block("prep", (60, 90, 120), short=45, place="house"),
        block("ceremony", (35, 45, 65), fixed="13:30", place="church", delay=(0, 5, 20)),
        block("confetti", (15, 25, 40), short=15, place="church"),
        block("groups", (25, 35, 55), short=20, place="church"),
        block("details", (10, 15, 25), short=5, droppable=True, place="venue", importance=3),
        block("portraits", (15, 25, 40), short=12, place="venue"),
        block("call", (10, 15, 20), fixed="17:10", place="venue"),
        block("meal", (75, 100, 130), place="venue"),
        block("speeches", (10, 30, 60), fixed="19:30", place="venue"),
        block("golden", (10, 20, 30), short=8, window=("19:40", "20:55"), place="garden"),
        block("dance", (5, 8, 15), fixed="21:15", place="venue"),
        block("guests", (20, 30, 40), photographer=False, after=("ceremony",), fixed="14:45"),
        legs=[
            ("home", "house", 40),
            ("house", "church", 20),
            ("church", "venue", 25),
            ("venue", "garden", 3),
        ],
        home="home",
        **fields,
    )


def drive(problem, one, other):
    """Planned minutes, rounded up by hand."""
    if None in (one, other) or one == other:
        return 0
    for leg in problem.legs:
        if {leg.origin, leg.destination} == {one, other}:
            return (leg.map_minutes * 4 + 2) // 3
    raise AssertionError(f"no drive from {one} to {other}")


def wrong_with(problem, starts):
    """What a plan breaks, straight from the definitions, for blocks listed in their order."""
    found = []
    ends = {b.key: starts[b.key] + b.law.likely for b in problem.blocks}
    for b in problem.blocks:
        if b.fixed is not None and starts[b.key] != b.fixed:
            found.append(f"{b.key} not at its time")
        if b.window and not b.window[0] <= starts[b.key] <= ends[b.key] <= b.window[1]:
            found.append(f"{b.key} outside its window")
        found += [f"{b.key} before {key}" for key in b.after if starts[b.key] < ends[key]]
    for one, other in pairwise([b for b in problem.blocks if b.photographer]):
        if starts[other.key] < ends[one.key] + drive(problem, one.place, other.place):
            found.append(f"{other.key} too soon after {one.key}")
    return found
