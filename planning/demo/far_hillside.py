"""Very small, on the other side of the world: booked, and nobody has opened the questions yet."""

from __future__ import annotations

from datetime import date

from planning.compute.values import Brief, DayBrief, Place, Spot

from . import dates
from .wedding import PHOTOGRAPHER, DemoWedding, clock, partner

ID = "demo-far-hillside"


def wedding(today: date) -> DemoWedding:
    day = dates.next_near(today, 3, 4, dates.THURSDAY)
    return DemoWedding(brief=brief(day))


def brief(day: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Mereana Tautari", "Mereana", email="mereana@example.org"),
            partner("Elias Lindqvist", "Elias", phone="07700 900512"),
        ),
        zone="Pacific/Auckland",
        style="small",
        days=(DayBrief("day-1", day, "", clock("15:30"), clock("20:30")),),
        places=(
            Place(
                key="hillside",
                name="Kōwhai Spur",
                uses=frozenset({"ceremony", "portraits"}),
                address="A hillside above the lake; the landowner meets us at the lower gate",
                spot=Spot(-44.73514, 169.12437),
                ceremony_facing=45.0,
                skyline=((220.0, 9.0), (250.0, 14.0), (280.0, 16.0), (310.0, 8.0)),
            ),
        ),
        answers_due=dates.before(day, 8, dates.SUNDAY),
        **PHOTOGRAPHER,
    )
