"""Briefs made by hand for the tests of what is planned from them. Everybody is invented."""

from datetime import date, time

from planning.compute.as_network import hours_of
from planning.compute.draft import draft
from planning.compute.placing import blocks_at
from planning.compute.planned import Day
from planning.compute.shortfalls import as_it_would_run
from planning.compute.values import (
    Brief,
    Contact,
    DayBrief,
    Group,
    Leg,
    Moment,
    Partner,
    Place,
    Spot,
)

LONDON = "Europe/London"
JUNE = date(2027, 6, 12)
EVERY_USE = frozenset({"getting_ready", "ceremony", "groups", "portraits", "meal", "party"})
BARN = Place(
    "barn",
    "Orchard Barn",
    EVERY_USE,
    spot=Spot(52.66, -2.86),
    coordinator=Contact("Ríona Achebe", phone="01632 960101"),
    wet_plan="The hay loft",
)
FLAT = Place("flat", "Quince Row", frozenset({"getting_ready"}), wet_plan="Indoors")
CHURCH = Place("church", "St Elvin’s", frozenset({"ceremony"}), wet_plan="The porch")
HALL = Place(
    "hall", "Larkmoor Hall", frozenset({"groups", "portraits", "meal", "party"}), wet_plan="Indoors"
)
APART = (FLAT, CHURCH, HALL)
ALL_LEGS = (Leg(None, "flat", 30), Leg("flat", "church", 12), Leg("church", "hall", 9))
PARTNERS = (Partner("Žofie Nováková", "Žofie", phone="07700 900101"), Partner("Ike Obi", "Ike"))


def at(text: str) -> time:
    return time.fromisoformat(text)


def moment(kind: str, clock: str = "", place: str | None = None, title: str = "") -> Moment:
    key = f"{kind}-{clock or 'unknown'}".replace(":", "").replace("_", "-")
    return Moment(key, kind, title or kind.title(), at(clock) if clock else None, not clock, place)


def make_day(*moments: Moment, on: date = JUNE, key: str = "d1", hours: str = "") -> DayBrief:
    """`hours` is "10:00-22:30", or either half of it."""
    starts, _, ends = hours.partition("-")
    return DayBrief(
        key, on, "", at(starts) if starts else None, at(ends) if ends else None, moments
    )


def group(title: str, *people: str, extra: int = 0) -> Group:
    return Group(title.lower().replace(" ", "-"), title, people, extra)


def make_brief(*days: DayBrief, **fields) -> Brief:
    """One place, no drive to it and nothing wrong, unless said otherwise."""
    usual = {
        "wedding": "w1",
        "partners": PARTNERS,
        "zone": LONDON,
        "places": (BARN,),
        "legs": (Leg(None, "barn", 0),),
        "helpers": (Contact("Tomasz Bąk"),),
    }
    return Brief(days=days, **(usual | fields))


def drafted(brief: Brief, day: DayBrief, turns, golden=None) -> Day:
    """The day as it would run if everything took its likely minutes, before it is placed."""
    layout = draft(brief, day, turns, golden).layout
    if not layout.blocks:
        return Day(day)
    hours = hours_of(brief, day)
    times = as_it_would_run(layout, hours)
    first = layout.links[0]
    leaves = None if first.place is None or first.drive is None else times[0][0] - first.drive
    return Day(
        day,
        tuple(blocks_at(layout, brief, day, hours, times, leaves)),
        leave_home=None if leaves is None else hours.at(leaves),
        shortfalls=tuple(layout.shortfalls),
        unknown_drives=layout.unknown,
    )
