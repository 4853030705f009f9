"""The `timeline` command's JSON read: ProblemError with one line about the first thing amiss."""

from __future__ import annotations

import re
from datetime import date
from functools import partial
from typing import Any
from zoneinfo import ZoneInfo

from planning.compute.json_text import ProblemError, opened, quoted, rows, table, words
from planning.compute.network.course import circle
from planning.compute.network.hours import Hours
from planning.compute.network.laws import Law
from planning.compute.network.values import Block, Fault, Problem
from planning.compute.network.words import joined, quote
from planning.compute.values import Leg

FIELDS = {"date", "zone", "wanted", "blocks", "travel", "home"}
BLOCK_FIELDS = {
    "id",
    "title",
    "kind",
    "minutes",
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
}
LEG_FIELDS = {"from", "to", "minutes"}

# Far beyond any wedding's day; what is more is a mistake.
MOST_BLOCKS, MOST_LEGS, MOST_MINUTES, MOST_HOURS = 100, 200, 24 * 60, 48
MOST_BYTES = 1_000_000
FIRST_YEAR, LAST_YEAR = 1970, 2199
CLOCK = re.compile(r"([0-9]{1,2}):([0-5][0-9])")
SKIPPED = "the clocks skip %(clock)s that night: %(meant)s is meant for %(block)s"
TWICE = "%(clock)s comes twice that night: the first is meant for %(block)s"


def read(text: str) -> Problem:
    data = opened(text, FIELDS, "blocks", {"blocks": MOST_BLOCKS, "travel": MOST_LEGS})
    hours = Hours(day(data.get("date")), zone(data.get("zone")))
    faults: list[Fault] = []
    blocks = tuple(
        block(item, number, hours, faults) for number, item in enumerate(rows(data, "blocks"), 1)
    )
    check_order(blocks)
    legs = tuple(leg(item, number) for number, item in enumerate(rows(data, "travel"), 1))
    check_legs(legs)
    home = optional(data.get("home"), partial(words, name="home"))
    wanted = part(data.get("wanted", 0.9))
    return Problem(hours, blocks, legs, home, wanted, tuple(faults))


def day(value: Any) -> date:
    try:
        if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
            found = date.fromisoformat(value)
            if FIRST_YEAR <= found.year <= LAST_YEAR:
                return found
    except ValueError:
        pass
    years = f"from {FIRST_YEAR} to {LAST_YEAR}"
    raise ProblemError(f"date must be a day like 2026-06-20, {years}, not {quoted(value)}")


def zone(value: Any) -> ZoneInfo:
    name = words(value, "zone")
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise ProblemError(f"there is no time zone {quoted(name)}") from error


def part(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value < 1:
        raise ProblemError("wanted must be a chance between 0 and 1, as 0.9")
    return float(value)


def optional(value: Any, read_it: Any) -> Any:
    return None if value is None else read_it(value)


def block(item: Any, number: int, hours: Hours, faults: list[Fault]) -> Block:
    name = f"block {number}"
    data = table(item, name, BLOCK_FIELDS)
    key = words(data.get("id"), f"id of {name}")
    name = f"block {quoted(key)}"

    def clock(value: Any) -> int:
        return clock_time(value, name, hours, faults)

    law = three(data.get("minutes"), f"minutes of {name}")
    return Block(
        key=key,
        law=law,
        title=label(data.get("title"), f"title of {name}"),
        kind=label(data.get("kind"), f"kind of {name}"),
        fixed=optional(data.get("fixed"), clock),
        window=optional(data.get("window"), partial(window, name=name, clock=clock)),
        after=after(data, name),
        place=optional(data.get("place"), partial(words, name=f"place of {name}")),
        photographer=yes_or_no(data, "photographer", True, name),
        start_delay=optional(
            data.get("start_delay"), partial(three, name=f"start_delay of {name}")
        ),
        short=optional(data.get("short"), partial(short, law=law, name=name)),
        droppable=yes_or_no(data, "droppable", False, name),
        importance=importance(data.get("importance"), name),
        movable=yes_or_no(data, "movable", True, name),
        wished=optional(data.get("wished"), clock),
    )


def label(value: Any, name: str) -> str:
    return "" if value is None or value == "" else words(value, name)


def yes_or_no(data: dict[str, Any], field: str, otherwise: bool, name: str) -> bool:
    value = data.get(field)
    if value is None:
        return otherwise
    if not isinstance(value, bool):
        raise ProblemError(f"{field} of {name} must be true or false")
    return value


def minutes(value: Any, name: str) -> int:
    whole = isinstance(value, int) or (isinstance(value, float) and value.is_integer())
    if isinstance(value, bool) or not whole or not 0 <= value <= MOST_MINUTES:
        raise ProblemError(
            f"{name} must be whole minutes from 0 to {MOST_MINUTES}, not {quoted(value)}"
        )
    return int(value)


def three(value: Any, name: str) -> Law:
    if not isinstance(value, list) or len(value) != 3:
        raise ProblemError(f"{name} must be a list of three: least, likely and most")
    least, likely, most = (minutes(one, name) for one in value)
    if not least <= likely <= most:
        raise ProblemError(f"{name} must not fall: least {least}, likely {likely}, most {most}")
    return Law(least, likely, most)


def short(value: Any, law: Law, name: str) -> int:
    found = minutes(value, f"short of {name}")
    if found > law.likely:
        raise ProblemError(f"short of {name} is longer than its likely {law.likely} minutes")
    return found


def importance(value: Any, name: str) -> float:
    if value is None:
        return 5
    if isinstance(value, bool) or not isinstance(value, int | float) or not 1 <= value <= 10:
        raise ProblemError(f"importance of {name} must be a number from 1 to 10")
    return value


def after(data: dict[str, Any], name: str) -> tuple[str, ...]:
    if data.get("after") is None:
        return ()
    keys = rows(data, "after", f"{name}: ")
    return tuple(dict.fromkeys(words(key, f"after of {name}") for key in keys))


def clock_time(value: Any, name: str, hours: Hours, faults: list[Fault]) -> int:
    """Minutes since 00:00; a time the clocks skip, or that comes twice, is told as a fault."""
    found = CLOCK.fullmatch(value) if isinstance(value, str) else None
    if not found or int(found[1]) >= MOST_HOURS:
        raise ProblemError(f"{name}: a time must be like 14:00, up to 47:59, not {quoted(value)}")
    clock = 60 * int(found[1]) + int(found[2])
    minute, odd = hours.minute(clock), hours.quirk(clock)
    if odd:
        told = {"clock": value, "meant": hours.shown(minute), "block": name}
        message = SKIPPED if odd == "skipped" else TWICE
        faults.append(Fault(f"{odd}_time", message, told, breaks=False))
    return minute


def window(value: Any, name: str, clock: Any) -> tuple[int, int]:
    if not isinstance(value, list) or len(value) != 2:
        raise ProblemError(f"window of {name} must be a list of two times")
    opens, closes = clock(value[0]), clock(value[1])
    if closes < opens:
        raise ProblemError(f"window of {name} ends before it starts: {value[0]} to {value[1]}")
    return opens, closes


def check_order(blocks: tuple[Block, ...]) -> None:
    names = {block.key: block.name for block in blocks}
    if len(names) < len(blocks):
        keys = [block.key for block in blocks]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise ProblemError(f"two blocks have the id {quoted(twice)}")
    for one in blocks:
        for key in one.after:
            if key not in names:
                raise ProblemError(
                    f"block {quoted(one.key)} comes after {quoted(key)}, which is no block"
                )
    if keys := circle(blocks):
        told = [quote(names[key]) for key in keys[:6]] + ["..."] * (len(keys) > 6)
        waits = joined(told) + (" wait for each other" if len(keys) > 1 else " waits for itself")
        raise ProblemError(f"after goes in a circle: {waits}")


def leg(item: Any, number: int) -> Leg:
    name = f"travel {number}"
    data = table(item, name, LEG_FIELDS)
    return Leg(
        words(data.get("from"), f"from of {name}"),
        words(data.get("to"), f"to of {name}"),
        minutes(data.get("minutes"), f"minutes of {name}"),
    )


def check_legs(legs: tuple[Leg, ...]) -> None:
    seen = set()
    for one in legs:
        way = (one.origin, one.destination)
        if one.origin == one.destination:
            raise ProblemError(f"travel goes from {quoted(one.origin)} to itself")
        if way in seen:
            raise ProblemError(
                f"travel from {quoted(one.origin)} to {quoted(one.destination)} is told twice"
            )
        seen.add(way)
