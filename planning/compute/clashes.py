"""What clashes across a season: days too near each other, nights too short, policies that lapse.

Rest is that of check_care.py (Directive 2003/88/EC, article 3: 11 hours in 24; it does not bind
who works alone, and is the usual caution). How long a drive takes from spot to spot is a guess of
ours: 60 km of straight line an hour, a third on top as for every drive, and a day at most, since
further away one flies. What a night of charging needs is `common practice, no source`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from math import ceil, floor

from .check_care import REST_HOURS
from .cover import KINDS, cover, holds
from .distance import distance_km
from .planned import Finding
from .ready_values import Policy
from .values import N_, Spot

KM_AN_HOUR, MARGIN, LONGEST_WAY = 60, 4 / 3, 24
CHARGE_HOURS = 4.0
LOOK_AHEAD = timedelta(hours=REST_HOURS + LONGEST_WAY)  # beyond it nothing is too near


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """A day of a wedding: instants, and where it begins and ends as far as the map says.

    `known_hours` is whether the hours are booked ones, and not the whole date; `insured` are the
    kinds of insurance that somebody settled for it by hand. `countries` are ISO 3166 codes.
    `charge_hours` is what its batteries take in the studio's own chargers, 0 where nobody knows.
    """

    wedding: str
    names: str
    date: date
    starts: datetime
    ends: datetime
    known_hours: bool = True
    first_spot: Spot | None = None
    last_spot: Spot | None = None
    countries: frozenset[str] = frozenset()
    insured: frozenset[str] = frozenset()
    key: str = ""
    charge_hours: float = 0.0


@dataclass(frozen=True, slots=True)
class Clash:
    """`on` is the date by which it matters, `weddings` are those that it is about."""

    on: date
    finding: Finding
    weddings: tuple[str, ...] = ()


def near_days(days: Iterable[SeasonDay]) -> Iterator[tuple[SeasonDay, SeasonDay]]:
    """Each day and the next one after it that is near, in the order in which they begin."""
    ordered = sorted(days, key=lambda day: (day.starts, day.ends))
    for one, other in pairwise(ordered):
        if other.starts - one.ends <= LOOK_AHEAD:
            yield one, other


def too_near(days: Sequence[SeasonDay]) -> Iterator[Clash]:
    """Two weddings at once, or so near that rest and the road between them do not fit."""
    for one, other in near_days(days):
        if one.wedding == other.wedding:
            continue
        values = {"one": one.names, "other": other.names, "day": one.date, "next": other.date}
        about = (one.wedding, other.wedding)
        if one.date == other.date or other.starts < one.ends:
            message = N_("%(one)s and %(other)s are on the same day, %(next)s.")
            yield Clash(other.date, Finding("same_day", "clash", message, values), about)
            continue
        gap, road = _hours(one, other), road_hours(one.last_spot, other.first_spot)
        if gap < REST_HOURS + road and one.known_hours and other.known_hours:
            yield Clash(other.date, _too_near(gap, road, one, other, values), about)


def _too_near(
    gap: float, road: float, one: SeasonDay, other: SeasonDay, values: dict[str, object]
) -> Finding:
    values |= {"gap": said_hours(gap), "rest": REST_HOURS}
    message = N_(
        "From %(one)s on %(day)s to %(other)s on %(next)s there are %(gap)s hours: less than "
        "%(rest)s hours of rest, before any drive."
    )
    if road >= 1:
        values |= {
            "road": said_hours(road, up=True),
            "km": round(_km(one.last_spot, other.first_spot)),
        }
        message = N_(
            "From %(one)s on %(day)s to %(other)s on %(next)s there are %(gap)s hours: too few "
            "for %(rest)s hours of rest and about %(road)s on the way (%(km)s km in a straight "
            "line)."
        )
    return Finding("too_near", "clash", message, values)


def short_charging(days: Sequence[SeasonDay]) -> Iterator[Clash]:
    """Nights in which the batteries of the next day do not charge."""
    for one, other in near_days(days):
        needed = other.charge_hours or CHARGE_HOURS
        left = _hours(one, other) - road_hours(one.last_spot, other.first_spot)
        if other.starts < one.ends or left >= needed or not (one.known_hours and other.known_hours):
            continue
        message = N_(
            "In the night before %(day)s there are %(left)s hours off the road; charging usually "
            "takes about %(needed)s. Take more batteries, or a second charger."
        )
        if other.charge_hours:
            message = N_(
                "In the night before %(day)s there are %(left)s hours off the road; your batteries "
                "take about %(needed)s to charge. Take more batteries, or a second charger."
            )
        values = {
            "day": other.date,
            "left": said_hours(max(left, 0)),
            "needed": said_hours(needed, up=True),
        }
        finding = Finding("short_charging", "clash", message, values)
        yield Clash(other.date, finding, tuple(dict.fromkeys((one.wedding, other.wedding))))


def lapses(
    days: Sequence[SeasonDay], policies: Sequence[Policy], kinds: Iterable[str]
) -> Iterator[Clash]:
    """Policies that do not hold on every day ahead: told once for each kind and each reason."""
    wanted = [kind for kind in KINDS if kind in set(kinds)]
    if days and wanted and not policies:
        message = N_("No insurance is noted yet.")
        yield Clash(days[0].date, Finding("insurance", "missing", message, {}, "insurance"))
        return
    for kind in wanted:
        of_kind = [policy for policy in policies if policy.kind == kind]
        open_days: dict[tuple, list[SeasonDay]] = defaultdict(list)
        for day in days:
            if not _is_held(day, of_kind, kind):
                open_days[_reason(day, of_kind, kind)].append(day)
        for reason, found in open_days.items():
            yield _lapse(kind, dict(reason), found)


def _is_held(day: SeasonDay, policies: list[Policy], kind: str) -> bool:
    """Settled by hand, or by a policy in every country: quick, for there may be thousands."""
    places = day.countries or {""}
    return kind in day.insured or all(any(holds(p, day.date, c) for p in policies) for c in places)


def _reason(day: SeasonDay, policies: list[Policy], kind: str) -> tuple:
    """Why no policy holds, without the day itself, so that many days share a reason."""
    values = cover(policies, kind, [day.date], day.countries).values
    return tuple((name, value) for name, value in values.items() if name != "day")


LAPSES = {
    "until": N_("%(kind)s: %(insurer)s ends on %(until)s."),
    "from": N_("%(kind)s: %(insurer)s begins on %(from)s only."),
    "country": N_("%(kind)s: %(insurer)s does not hold in this country: %(country)s."),
    "": N_("%(kind)s: no policy is noted."),
}


def _lapse(kind: str, values: dict[str, object], found: list[SeasonDay]) -> Clash:
    """The reason, how many weddings it leaves open, and the first of them."""
    reason = next((name for name in LAPSES if name and name in values), "")
    weddings = tuple(dict.fromkeys(day.wedding for day in found))
    values |= {"kind": KINDS[kind], "count": len(weddings), "first": found[0].names}
    values["day"] = found[0].date
    return Clash(
        found[0].date, Finding("insurance", "clash", LAPSES[reason], values, "insurance"), weddings
    )


def road_hours(origin: Spot | None, destination: Spot | None) -> float:
    """Hours to plan from spot to spot; 0 where one of them is not known."""
    return min(_km(origin, destination) / KM_AN_HOUR * MARGIN, LONGEST_WAY)


def said_hours(hours: float, up: bool = False) -> str:
    """In half hours, as people say it; what there is rounded down, what is needed up."""
    return f"{(ceil(hours * 2) if up else floor(hours * 2)) / 2:g}"


def _km(origin: Spot | None, destination: Spot | None) -> float:
    return distance_km(origin, destination) if origin and destination else 0.0


def _hours(one: SeasonDay, other: SeasonDay) -> float:
    return (other.starts.timestamp() - one.ends.timestamp()) / 3600
