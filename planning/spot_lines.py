"""What the map's page says back about a spot, so that a slip of the finger is seen at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from unicodedata import bidirectional

from django.utils.translation import gettext as _

from studio.templatetags.clock import clock, long_date

from .compute.distance import distance_km
from .compute.light import sun_events
from .compute.light.hours import FIRST_YEAR, LAST_YEAR
from .compute.place_text import far_from_zone, pair_text
from .compute.planned import Event
from .compute.values import Brief, Spot
from .spot_zone import are_one, same_clock, usual_offset, zone_at

# Ours: about four hours on the road, further than one day of photographs reaches; a lost sign
# and a swapped pair are nearly always further than that.
FAR_KM = 300
POLE = 89.99
MOST_DAYS = 3

Spots = Mapping[str, Spot]
Names = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence; with `do` it is a question, and `press` the words of the button that does it."""

    text: str
    asks: bool = True
    do: str = ""
    press: str = ""


def spot_lines(key: str, where: Spots, names: Names, brief: Brief) -> tuple[Line, ...]:
    """Where the place `key` is and its sunset, then what looks wrong about it."""
    spot = where.get(key)
    if spot is None:
        return ()
    quiet = " ".join([_position(spot), *(_sunset(spot, brief.zone, d) for d in _days(key, brief))])
    instead = _instead(key, spot, brief)  # one question: a wrong pair is wrong in every way
    asked = (instead,) if instead else (_nowhere(spot), _far(key, where, names))
    return (Line(quiet, asks=False), *(line for line in asked if line))


def zone_notes(where: Spots, names: Names, brief: Brief) -> tuple[Line, ...]:
    """The zones the spots lie in, where they are not the wedding's: offered, never taken."""
    places: dict[str, list[str]] = {}
    for key, spot in where.items():
        zone = zone_at(spot)
        if zone and not are_one(zone, brief.zone) and _instead(key, spot, brief) is None:
            places.setdefault(zone, []).append(named(names[key]))
    return tuple(_zone_note(zone, there, brief) for zone, there in places.items())


def named(name: str) -> str:
    """A name inside a sentence; one written from the right does not turn the rest round."""
    if any(bidirectional(letter) in {"R", "AL"} for letter in name):
        return f"\u2068{name}\u2069"
    return name


def _zone_note(zone: str, places: list[str], brief: Brief) -> Line:
    values = {"places": ", ".join(places), "zone": zone, "planned": brief.zone}
    text = _("The clocks at %(places)s go by %(zone)s; this wedding is planned by %(planned)s.")
    if brief.days and same_clock(zone, brief.zone, (day.date for day in brief.days)):
        text += " " + _("On the day both tell the same time.")
    text += " " + _("Leave it if that is meant.")
    return Line(
        text % values, do=f"zone:{zone}", press=_("Take %(zone)s for the wedding") % {"zone": zone}
    )


def _position(spot: Spot) -> str:
    values = {
        "latitude": f"{abs(spot.latitude):.5f}",
        "ns": _("south") if spot.latitude < 0 else _("north"),
        "longitude": f"{abs(spot.longitude):.5f}",
        "ew": _("west") if spot.longitude < 0 else _("east"),
        "zone": zone_at(spot),
    }
    if values["zone"]:
        text = _("%(latitude)s° %(ns)s, %(longitude)s° %(ew)s, on the clocks of %(zone)s.")
    else:
        text = _("%(latitude)s° %(ns)s, %(longitude)s° %(ew)s.")
    return text % values


def _days(key: str, brief: Brief) -> list[date]:
    """The days on which the couple name this place, else the first; not a week of them."""
    there = [d.date for d in brief.days if any(moment.place == key for moment in d.moments)]
    return there[:MOST_DAYS] or [day.date for day in brief.days[:1]]


def _sunset(spot: Spot, zone: str, day: date) -> str:
    """Of the evening, noon to noon: in the far north the sun may set after midnight."""
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        text = _("No sunset is known for the year %(year)s, only for %(first)s to %(last)s.")
        return text % {"year": day.year, "first": FIRST_YEAR, "last": LAST_YEAR}
    event = _first_sunset(spot, zone, day, evening=True)
    if event.reason == "not_this_day":  # near the polar night it may set before noon's clock
        event = _first_sunset(spot, zone, day, evening=False)
    if event.at:
        text = _("The sun sets at %(time)s on %(date)s.")
        return text % {"time": clock(event.at), "date": long_date(event.at)}
    words = {
        "always_up": _("The sun does not set on %(date)s (polar day)."),
        "always_down": _("The sun does not rise on %(date)s (polar night)."),
    }
    return words.get(event.reason, _("The sun does not set on %(date)s.")) % {
        "date": long_date(day)
    }


def _first_sunset(spot: Spot, zone: str, day: date, evening: bool) -> Event:
    return next(e for e in sun_events(spot, zone, day, evening) if e.kind == "sunset")


def _nowhere(spot: Spot) -> Line | None:
    if abs(spot.latitude) > POLE:
        return Line(
            _(
                "This is a pole: every way from it is the same, so bearings mean nothing there, "
                "and the sun rises and sets once a year."
            )
        )
    if zone_at(spot) is None:
        return Line(_("On our map of time zones this is open sea: are the figures right?"))
    return None


def _instead(key: str, spot: Spot, brief: Brief) -> Line | None:
    """A pair that would lie in the wedding's zone, when this one does not."""
    zone = zone_at(spot)
    if zone and are_one(zone, brief.zone):
        return None
    swapped = Spot(spot.longitude, spot.latitude)
    if abs(spot.longitude) <= 90 and swapped != spot:
        there = zone_at(swapped)
        if there and (zone is None or are_one(there, brief.zone)):
            text = _("The other way round, %(pair)s, it is in %(zone)s: were the two swapped?")
            return _put(key, swapped, text, there)
    year = brief.days[0].date.year if brief.days else date.today().year
    if far_from_zone(spot, usual_offset(brief.zone, year)):
        for east, north in ((-1, 1), (1, -1), (-1, -1)):
            turned = Spot(north * spot.latitude, east * spot.longitude)
            there = zone_at(turned)
            if there and are_one(there, brief.zone):
                text = _("With another sign, %(pair)s, it is in %(zone)s: was a minus lost?")
                return _put(key, turned, text, there)
    return None


def _put(key: str, spot: Spot, text: str, zone: str) -> Line:
    pair = pair_text(spot)
    return Line(
        text % {"pair": pair, "zone": zone},
        do=f"put:{key}:{pair}",
        press=_("Put %(pair)s") % {"pair": pair},
    )


def _far(key: str, where: Spots, names: Names) -> Line | None:
    """How far it is to the nearest other place; a place alone has nothing to be far from."""
    others = [(distance_km(where[key], where[other]), other) for other in where if other != key]
    if not others or min(others)[0] <= FAR_KM:
        return None
    km, other = min(others)
    text = _("It is %(km)s km from %(place)s: is that meant?")
    return Line(text % {"km": round(km), "place": named(names[other])})
