"""What readers were told of each entry, and what they are told next."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import icalendar
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from intake.models import Moment, Wedding
from planning.compute.values import Place, Spot
from planning.entry import Entry
from planning.given import TOLD_FOR, Batch, digest_of, hand_out
from planning.models import Decisions, GivenEntry

START = datetime(2027, 6, 12, 14, tzinfo=UTC)
VOWS = Entry("block/vows", "Ceremony", START, START + timedelta(minutes=30))
DUE = Entry("answers", "Answers due", date(2027, 4, 1), date(2027, 4, 2))


@pytest.fixture
def at(monkeypatch):
    """Sets the clock that the record is written by."""

    def set_clock(moment):
        monkeypatch.setattr(timezone, "now", lambda: moment)

    set_clock(datetime(2027, 1, 1, 8, tzinfo=UTC))
    return set_clock


@pytest.fixture
def give(wedding, at):
    """Hands entries of the wedding out, so many days after the first of January."""

    def hand(*entries, days=0, zone="Europe/London"):
        at(datetime(2027, 1, 1, 8, tzinfo=UTC) + timedelta(days=days))
        return hand_out([Batch(wedding.pk, wedding.public_id, zone, entries)])

    return hand


def test_what_is_given_out_for_the_first_time_has_the_number_0(give):
    (vows,) = give(VOWS)
    assert (vows.sequence, vows.cancelled) == (0, False)
    assert vows.changed_at == datetime(2027, 1, 1, 8, tzinfo=UTC)


def test_what_is_given_out_again_as_it_was_is_the_same_and_nothing_is_written(give):
    first = give(VOWS, DUE)
    with CaptureQueriesContext(connection) as queries:
        assert give(VOWS, DUE, days=3) == first
    assert len(queries) == 1


def test_each_change_counts_up_and_has_its_own_time(give):
    give(VOWS)
    (later,) = give(replace(VOWS, start=START - timedelta(minutes=10)), days=1)
    assert (later.sequence, later.changed_at.day) == (1, 2)
    (back,) = give(VOWS, days=2)
    assert (back.sequence, back.changed_at.day) == (2, 3)
    assert back.uid == later.uid


@pytest.mark.parametrize(
    "change",
    [
        {"summary": "Vows"},
        {"end": START + timedelta(minutes=40)},
        {"lines": ("Fixed time",)},
        {"contact": "Šimon, 01632 960100"},
        {"alarms": (timedelta(),)},
        {"place": Place("mill", "Mill")},
        {"place": Place("mill", "Mill", spot=Spot(52.3, -2.6))},
    ],
)
def test_whatever_a_reader_can_see_counts_as_a_change(change):
    assert digest_of(replace(VOWS, **change), "UTC") != digest_of(VOWS, "UTC")


def test_another_zone_counts_as_a_change_and_what_no_reader_sees_does_not():
    there = replace(VOWS, place=Place("mill", "Mill"))
    hidden = replace(there, place=replace(there.place, note="Ask for the key", key="m"))
    assert digest_of(VOWS, "Europe/Dublin") != digest_of(VOWS, "Europe/London")
    assert digest_of(hidden, "UTC") == digest_of(there, "UTC")


def test_what_is_no_more_is_given_out_as_cancelled_where_and_when_it_was(give):
    give(VOWS, DUE)
    due, vows = give(days=1)
    assert vows.cancelled
    assert due.cancelled
    assert (vows.sequence, vows.changed_at.day) == (1, 2)
    assert (vows.entry.start, vows.entry.summary) == (START, "Cancelled: Ceremony")
    assert due.entry.start == date(2027, 4, 1)
    assert vows.entry == Entry("", vows.entry.summary, vows.entry.start, vows.entry.end)
    assert give(days=2) == [due, vows]


def test_what_comes_back_is_given_out_once_more_and_counts_up(give):
    give(VOWS)
    give(days=1)
    (vows,) = give(VOWS, days=2)
    assert (vows.sequence, vows.cancelled) == (2, False)


def test_a_cancelled_entry_is_left_out_after_a_month_and_its_number_is_remembered(give):
    give(VOWS)
    give(days=1)
    assert give(days=TOLD_FOR.days)
    assert give(days=1 + TOLD_FOR.days) == []
    (vows,) = give(VOWS, days=60)
    assert vows.sequence == 2


def test_looking_without_being_given_anything_writes_nothing(wedding, at):
    batch = Batch(wedding.pk, wedding.public_id, "UTC", (VOWS,))
    assert len(hand_out([batch], kept=False)) == 1
    assert not GivenEntry.objects.exists()


def test_two_weddings_and_the_studio_itself_are_kept_apart(wedding, other, at):
    batches = [
        Batch(wedding.pk, wedding.public_id, "UTC", (VOWS,)),
        Batch(other.pk, other.public_id, "UTC", (VOWS,)),
        Batch(None, "studio", "UTC", (DUE,)),
    ]
    assert len({each.uid for each in hand_out(batches)}) == 3
    (theirs,) = hand_out([Batch(other.pk, other.public_id, "UTC", (VOWS,))])
    assert not theirs.cancelled
    (gone,) = hand_out([Batch(None, "studio", "UTC", ())])
    assert gone.cancelled


def test_with_a_wedding_goes_all_that_was_said_of_it(wedding, give):
    give(VOWS)
    Wedding.objects.all().delete()
    assert not GivenEntry.objects.exists()


def download(client, wedding):
    page = client.get(reverse("calendar", args=[wedding.public_id]))
    events = icalendar.Calendar.from_ical(page.content).walk("VEVENT")
    return {str(event["SUMMARY"]): event for event in events}


def test_a_block_that_moves_counts_up_in_the_file_and_one_left_out_is_cancelled(
    photographer, timed
):
    before = download(photographer, timed)["Ceremony: Þóra & Łukasz"]
    timed.moments.filter(key="vows").update(at=time(14, 20))
    moved = download(photographer, timed)["Ceremony: Þóra & Łukasz"]
    assert moved["UID"] == before["UID"]
    assert (before["SEQUENCE"], moved["SEQUENCE"]) == (0, 1)
    assert moved.start - before.start == timedelta(minutes=20)
    timed.moments.get(key="reel").delete()
    Moment.objects.filter(key="dinner").update(title="Supper")
    found = download(photographer, timed)
    assert found["Supper: Þóra & Łukasz"]["SEQUENCE"] >= 1
    assert len({str(event["UID"]) for event in found.values()}) == len(found)


def test_an_appointment_that_is_taken_back_is_cancelled_in_the_file(photographer, timed):
    Decisions.objects.update(meeting_at=datetime(2027, 2, 1, 18, tzinfo=UTC))
    before = download(photographer, timed)["Planning meeting: Þóra & Łukasz"]
    Decisions.objects.update(meeting_at=None)
    after = download(photographer, timed)["Cancelled: Planning meeting: Þóra & Łukasz"]
    assert (after["UID"], after["SEQUENCE"], after["STATUS"]) == (before["UID"], 1, "CANCELLED")
    assert after.start == before.start
    assert after["TRANSP"] == "TRANSPARENT"


def test_asking_only_for_the_heads_of_a_file_keeps_nothing_in_mind(photographer, timed):
    photographer.head(reverse("calendar", args=[timed.public_id]))
    assert not GivenEntry.objects.exists()
