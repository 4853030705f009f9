"""Five readers agree with zoneinfo on every entry of the invented season, all over the world.

The whole season is played in January, June and December, in zones of both halves of the earth,
with daylight time of an hour, of half an hour and of none, and offsets of three quarters.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from zoneinfo import ZoneInfo

import pytest

from planning.compute.day import plan_wedding
from planning.demo.season import season
from planning.entries import list_entries
from planning.entry import Stamped
from planning.ics import calendar_bytes, entry_uid
from tests.planning.readers import READERS

ZONES = [
    "Europe/London",
    "Europe/Berlin",
    "America/New_York",
    "Australia/Sydney",
    "Asia/Kathmandu",
    "Australia/Lord_Howe",
    "Pacific/Honolulu",
]
MONTHS = (1, 6, 12)


def played_in(brief, month, zone):
    """A wedding of the demo in another month, in another zone: every clock time as it was."""
    first = date(2027, month, 12)
    moved = first - brief.days[0].date

    def there(at):
        return at and (at.replace(tzinfo=None) + moved).replace(tzinfo=ZoneInfo(zone))

    return replace(
        brief,
        wedding=f"{brief.wedding}-{month}",
        zone=zone,
        days=tuple(replace(day, date=day.date + moved) for day in brief.days),
        meeting_at=there(brief.meeting_at),
        visit_at=there(brief.visit_at),
        answers_due=first - timedelta(days=60),
    )


@cache
def entries_in(zone):
    briefs = [played_in(demo.brief, m, zone) for demo in season(date(2027, 1, 4)) for m in MONTHS]
    return {
        entry_uid(brief.wedding, entry.key): entry
        for brief in briefs
        for entry in list_entries(plan_wedding(brief))
    }


@cache
def file_of(zone):
    stamped = [Stamped(entry, uid, zone) for uid, entry in entries_in(zone).items()]
    return calendar_bytes("Season", stamped)


def assert_as_planned(read, planned, zone):
    """The same instant and the same clock time; whole days as dates."""
    if not isinstance(planned, datetime):
        assert as_date(read) == planned
        return
    clock = planned.replace(microsecond=0)
    assert read.astimezone(UTC) == clock.astimezone(UTC)
    assert read.astimezone(ZoneInfo(zone)).isoformat() == clock.isoformat()


def as_date(read):
    """ics has no dates, and gives a whole day as its midnight."""
    return read.date() if isinstance(read, datetime) else read


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("reader", READERS)
def test_a_reader_has_every_entry_of_the_season_when_zoneinfo_has_it(reader, zone):
    planned, read = entries_in(zone), READERS[reader](file_of(zone))
    assert read.keys() == planned.keys()
    for uid, entry in planned.items():
        start, end = read[uid]
        assert_as_planned(start, entry.start, zone)
        assert_as_planned(end, entry.end, zone)


@pytest.mark.parametrize("zone", ZONES)
def test_the_season_has_every_kind_of_entry_in_all_three_months(zone):
    entries = entries_in(zone).values()
    kinds = {entry.key.split("/")[0] for entry in entries}
    ahead = {"answers", "meeting", "visit", "final", "before"}
    assert kinds == ahead | {"leave", "block", "copies", "elsewhere"}
    starts = [entry.start for entry in entries if entry.key.startswith("block/")]
    assert {start.month for start in starts} >= set(MONTHS)
    assert len(starts) > 200
