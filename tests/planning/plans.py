"""Plans made by hand for the tests of what is drawn from a plan. Everybody in them is invented."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from planning.compute.planned import Block, Day, Plan
from planning.compute.values import (
    Brief,
    Contact,
    DayBrief,
    Partner,
    Place,
    Spot,
)
from planning.entries import list_entries
from planning.entry import Stamped
from planning.ics import calendar_bytes, entry_uid

GIVEN = datetime(2026, 11, 3, 9, 30, tzinfo=UTC)

MILL = Place(
    "mill",
    "Halvorsen Mill",
    address="3, Weir Lane\nOld Harbour; Upper Quay",
    spot=Spot(54.123456789, -0.00001),
    coordinator=Contact("Þóra Žáček", phone="01632 960123"),
)
COUPLE = (Partner("Łukasz O'Neill", "Łukasz"), Partner("Nguyễn Thị Ánh", "Ánh"))


def make_block(day: date, at: str, minutes: int, zone: str, key: str = "b1", **more) -> Block:
    start = datetime.combine(day, time.fromisoformat(at), ZoneInfo(zone)).astimezone(UTC)
    end = (start + timedelta(minutes=minutes)).astimezone(ZoneInfo(zone))
    fields = {"kind": "ceremony", "title": "Ceremony", "place": MILL} | more
    return Block(key=key, start=start.astimezone(ZoneInfo(zone)), end=end, **fields)


def make_plan(*blocks: Block, zone: str = "Europe/London", **brief) -> Plan:
    """One day with these blocks; anything else of the brief by its name."""
    day = DayBrief("d1", blocks[0].start.date() if blocks else date(2027, 6, 12))
    fields = {
        "wedding": "a1b2c3",
        "partners": COUPLE,
        "places": (MILL,),
    } | brief
    return Plan(Brief(zone=zone, days=(day,), **fields), days=(Day(day, blocks=blocks),))


def with_leave_home(plan: Plan, leave_home: datetime) -> Plan:
    (day,) = plan.days
    return replace(plan, days=(replace(day, leave_home=leave_home),))


def calendar_of(plan: Plan, sources=None, **stamp) -> bytes:
    """The file of a plan that nobody was given before; of these sources where they are named."""
    brief = plan.brief
    found = [e for source in sources for e in source(plan)] if sources else list_entries(plan)
    fields = {"changed_at": GIVEN} | stamp
    entries = [
        Stamped(each, entry_uid(brief.wedding, each.key), brief.zone, **fields) for each in found
    ]
    return calendar_bytes(brief.names, entries)
