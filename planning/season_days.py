"""The season's own crossing: every day ahead as a `SeasonDay`, a few questions for all of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

from intake.models import Day, Moment, Wedding
from studio.models import Studio

from .brief_bag import counts
from .compute.clashes import Clash, SeasonDay, lapses, short_charging, too_near
from .compute.clock import SMALL_HOURS
from .compute.due import day_ends, day_starts
from .compute.hires import Hire, hire_clashes
from .compute.values import DayBrief, Spot
from .countries import country_of
from .kit_models import KitItem
from .models import Policy, ReadyTick
from .ready_bag import charging, season_hires
from .ready_brief import as_policy, countries_of, wanted_kinds

BEGUN = timedelta(days=1)  # yesterday's wedding may still run, and end before tomorrow's
AHEAD = timedelta(days=550)  # bookings a year and a half ahead can still be talked over
INSURED = timedelta(days=183)  # policies run for a year: what is further off is for the next one
NEAR = timedelta(days=2)  # dates as far apart as near days can be: see compute.clashes.LOOK_AHEAD
MOST_NEAR = 80  # days so near another that it is asked where they are
COLUMNS = (
    "wedding__public_id",
    "key",
    "date",
    "hours__starts",
    "hours__ends",
    "wedding__zone",
    "wedding__decisions__countries",
)
Row = tuple[Any, ...]


def season_clashes(today: date, studio: Studio) -> list[Clash]:
    """Everything that clashes from today on, by the date from which it matters."""
    rows = _rows(today)
    near = _near_rows(rows)
    soon = [row for row in rows if today <= row[2] <= today + INSURED]
    policies = [as_policy(row) for row in Policy.objects.all()]
    settled, home = _settled(today), country_of(studio.zone)
    ahead = [_day(row, home, settled) for row in soon]
    told = list(lapses(ahead, policies, wanted_kinds(studio)))
    hires = season_hires(today, today + AHEAD)
    about = {row[0] for row in (*near, *rows[:1])} | {w for c in told for w in c.weddings[:1]}
    weddings = _weddings(about | {use.wedding for hire in hires for use in hire.uses})
    items = list(KitItem.objects.all())
    days = [_whole(_day(row, home, settled), weddings[row[0]], items) for row in near]
    told = [_with_first(clash, weddings) for clash in told]
    hires = [_with_names(hire, weddings) for hire in hires]
    found = [*too_near(days), *short_charging(days), *hire_clashes(hires), *told]
    return sorted((each for each in found if each.on >= today), key=lambda each: each.on)


def _rows(today: date) -> list[Row]:
    """Every day from yesterday on; names and spots are read later, and only where they matter."""
    days = Day.objects.filter(date__range=(today - BEGUN, today + AHEAD))
    return list(days.order_by("date", "pk").values_list(*COLUMNS))


def _near_rows(rows: list[Row]) -> list[Row]:
    """Those that have another within two days: only of them is it asked when and where."""
    dates = [row[2] for row in rows]
    found = [
        row
        for i, row in enumerate(rows)
        if (i and row[2] - dates[i - 1] <= NEAR)
        or (i + 1 < len(rows) and dates[i + 1] - row[2] <= NEAR)
    ]
    return found[:MOST_NEAR]


def _day(row: Row, home: str, settled: Mapping[str, set[str]]) -> SeasonDay:
    wedding, key, on, starts, ends, zone, chosen = row
    brief = DayBrief(key, on, starts=starts, ends=ends)
    countries = countries_of(chosen, zone)
    insured = settled.get(wedding, set())
    if not home or countries <= {home}:
        insured = insured | {"travel"}
    return SeasonDay(
        wedding=wedding,
        names="",
        date=on,
        starts=day_starts(brief, zone),
        ends=day_ends(brief, zone),
        known_hours=None not in (starts, ends),
        countries=countries,
        insured=frozenset(insured),
        key=key,
    )


def _settled(today: date) -> dict[str, set[str]]:
    """The kinds of insurance that somebody ticked by hand, by wedding."""
    ticks = ReadyTick.objects.filter(
        key__startswith="insurance-",
        wedding__days__date__gte=today - BEGUN,
        wedding__days__removed_at=None,
    )
    found = defaultdict(set)
    for wedding, key in ticks.values_list("wedding__public_id", "key"):
        found[wedding].add(key.removeprefix("insurance-"))
    return found


def _weddings(ids: Iterable[str]) -> dict[str, Wedding]:
    found = Wedding.objects.filter(public_id__in=ids)
    found = found.prefetch_related("partners", "days", "moments", "places__spot", "bag_lines")
    return {wedding.public_id: wedding for wedding in found}


def _whole(day: SeasonDay, wedding: Wedding, items: list[KitItem]) -> SeasonDay:
    """With names, with where its first and its last moment are that the map knows, and with how
    long its batteries charge."""
    spots = {place.pk: _spot(place) for place in wedding.places.all() if hasattr(place, "spot")}
    days = {each.key: each.pk for each in wedding.days.all()}
    there = [
        spots[moment.place_id]
        for moment in sorted(wedding.moments.all(), key=_in_order)
        if moment.place_id in spots and moment.day_id in (None, days.get(day.key))
    ] or list(spots.values())
    first, last = (there[0], there[-1]) if there else (None, None)
    return replace(
        day,
        names=wedding.names,
        first_spot=first,
        last_spot=last,
        charge_hours=charging(items, counts(wedding, items)),
    )


def _with_names(hire: Hire, weddings: Mapping[str, Wedding]) -> Hire:
    uses = (replace(use, names=weddings[use.wedding].names) for use in hire.uses)
    return replace(hire, uses=tuple(uses))


def _spot(place: Any) -> Spot:
    return Spot(place.spot.latitude, place.spot.longitude)


def _in_order(moment: Moment) -> tuple[bool, time]:
    at = moment.at or time(12)
    return at < SMALL_HOURS, at


def _with_first(clash: Clash, weddings: Mapping[str, Wedding]) -> Clash:
    """A policy that lapses is told with the names of the first wedding after it."""
    if not clash.weddings:
        return clash
    values = {**clash.finding.values, "first": weddings[clash.weddings[0]].names}
    return replace(clash, finding=replace(clash.finding, values=values))
