"""Read back by readers that are not ours: vobject 0.9.9, ics 0.7.3, icalendar 7.3.2."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import ics
import pytest
import vobject

from planning.compute.values import HOME, Contact, Partner, Spot
from planning.entries_ahead import answers_due, meeting, visit
from planning.entries_day import blocks as day_blocks
from planning.entries_day import leaving
from planning.ics import entry_uid
from tests.planning.plans import MILL, calendar_of, make_block, make_plan, with_leave_home
from tests.planning.readers import (
    events,
    read_with_icalendar,
    read_with_ics,
    read_with_vobject,
)

ZONES = [
    "Europe/London",
    "Europe/Berlin",
    "Europe/Dublin",
    "America/New_York",
    "Australia/Sydney",
    "Australia/Lord_Howe",
    "Asia/Kathmandu",
    "Pacific/Honolulu",
    "Atlantic/Reykjavik",
    "Africa/Casablanca",  # has no rule: written in UTC
]
DATES = [date(2027, 1, 15), date(2027, 6, 12), date(2027, 12, 4)]
JUNE = date(2027, 6, 12)


def file_of(plan, **stamp):
    """Without the entries that come of themselves with every date."""
    return calendar_of(plan, (answers_due, meeting, visit, leaving, day_blocks), **stamp)


def london(at, key="b1", minutes=30, **more):
    return make_block(JUNE, at, minutes, "Europe/London", key, **more)


def read_events(data):
    return icalendar.Calendar.from_ical(data).walk("VEVENT")


def lines_of(data):
    return data.decode().replace("\r\n ", "").split("\r\n")


def blocks_of_a_year(zone):
    times = [(day, at) for day in DATES for at in ("07:05", "14:00", "23:30")]
    return [make_block(day, at, 90, zone, f"{day}-{at}") for day, at in times]


def assert_same_times(found, blocks, zone):
    assert len(found) == len(blocks)
    for block in blocks:
        start, end = found[entry_uid("a1b2c3", f"block/{block.key}")]
        assert start.astimezone(ZoneInfo(zone)).isoformat() == block.start.isoformat()
        assert end.astimezone(UTC) == block.end.astimezone(UTC)


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("read", [read_with_vobject, read_with_ics, read_with_icalendar])
def test_every_reader_has_the_same_times_in_january_june_and_december(zone, read):
    blocks = blocks_of_a_year(zone)
    assert_same_times(read(file_of(make_plan(*blocks, zone=zone))), blocks, zone)


# A zone of no reader's own list, so that only our rule can tell its offset. (ics 0.7.3 is left
# out: it knows zones by their name and takes a name it does not know for UTC.)
@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("read", [read_with_vobject, read_with_icalendar])
def test_readers_that_have_only_our_rule_have_the_same_times_too(zone, read):
    blocks = blocks_of_a_year(zone)
    data = file_of(make_plan(*blocks, zone=zone))
    assert_same_times(read(data.replace(zone.encode(), f"Only/{zone}".encode())), blocks, zone)


def test_local_times_are_written_with_their_zone_which_stands_before_the_events():
    lines = lines_of(file_of(make_plan(london("14:00"))))
    assert "DTSTART;TZID=Europe/London:20270612T140000" in lines
    assert lines.index("END:VTIMEZONE") < lines.index("BEGIN:VEVENT")
    assert lines.count("BEGIN:VTIMEZONE") == 1


def test_a_zone_without_a_rule_has_its_times_in_utc_and_no_zone_part():
    block = make_block(JUNE, "14:00", 30, "Africa/Casablanca")
    lines = lines_of(file_of(make_plan(block, zone="Africa/Casablanca")))
    assert "DTSTART:20270612T130000Z" in lines
    assert "BEGIN:VTIMEZONE" not in lines


@pytest.mark.parametrize("zone", ["UTC", "Etc/UTC", "Atlantic/Reykjavik"])
def test_a_zone_that_keeps_utc_has_no_zone_part(zone):
    lines = lines_of(file_of(make_plan(make_block(JUNE, "14:00", 30, zone), zone=zone)))
    assert "DTSTART:20270612T140000Z" in lines
    assert "BEGIN:VTIMEZONE" not in lines


def test_the_second_of_two_hours_that_read_alike_keeps_its_instant():
    zone = ZoneInfo("Europe/London")
    start = datetime(2027, 10, 31, 1, 30, tzinfo=UTC).astimezone(zone)  # 01:30 again, in winter
    block = replace(london("14:00"), start=start, end=start + timedelta(hours=1))
    data = file_of(make_plan(block))
    for read in (read_with_vobject, read_with_ics, read_with_icalendar):
        ((begin, _),) = read(data).values()
        assert begin.astimezone(UTC) == datetime(2027, 10, 31, 1, 30, tzinfo=UTC)


def test_a_block_across_the_autumn_change_ends_after_it_starts():
    zone = ZoneInfo("Europe/London")
    start = datetime(2027, 10, 31, 0, 45, tzinfo=UTC).astimezone(zone)  # 01:45, summer
    end = datetime(2027, 10, 31, 1, 15, tzinfo=UTC).astimezone(zone)  # 01:15, winter
    data = file_of(make_plan(replace(london("14:00"), start=start, end=end)))
    for read in (read_with_vobject, read_with_ics, read_with_icalendar):
        ((begin, until),) = read(data).values()
        assert until.astimezone(UTC) - begin.astimezone(UTC) == timedelta(minutes=30)


def test_a_block_that_has_no_time_left_lasts_a_minute_for_every_reader():
    data = file_of(make_plan(london("14:00", minutes=0)))
    for read in (read_with_vobject, read_with_ics, read_with_icalendar):
        ((begin, until),) = read(data).values()
        assert until - begin == timedelta(minutes=1)


def test_a_year_mistyped_by_a_thousand_is_written_in_utc():
    block = make_block(date(9027, 6, 12), "14:00", 30, "Europe/London")
    assert "BEGIN:VTIMEZONE" not in lines_of(file_of(make_plan(block)))


# RFC 5545, 3.1: lines of at most 75 octets without their break, which is CRLF; no control
# characters but the tab.
def test_lines_are_short_and_end_as_the_standard_wants():
    title = "Þingvellir 日本 " * 20 + "\r\nsecond\rthird\x07"
    block = london("14:00", title=title, place=replace(MILL, name="ž" * 300))
    data = file_of(make_plan(block))
    assert data.endswith(b"\r\n")
    assert not re.search(rb"(?<!\r)\n|\r(?!\n)", data)
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
    assert not re.search(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", data)
    data.decode()
    ((event),) = read_events(data)
    assert str(event["SUMMARY"]) == " ".join((title[:-1] + ": Łukasz & Ánh").split())


def test_commas_semicolons_backslashes_and_line_ends_come_back_as_typed():
    known = Contact("one\ntwo, three; \\four")
    block = london("14:00", title=r"Rings, vows; 100% \o/", place=replace(MILL, coordinator=known))
    data = file_of(make_plan(block))
    event = ics.Calendar(data.decode()).events.pop()
    assert event.name == r"Rings, vows; 100% \o/: Łukasz & Ánh"
    assert event.description.endswith("one\ntwo, three; \\four")
    assert event.location == "Halvorsen Mill, 3, Weir Lane, Old Harbour; Upper Quay"
    assert r"SUMMARY:Rings\, vows\; 100% \\o/: Łukasz & Ánh" in lines_of(data)


def test_an_entry_says_who_is_in_charge_and_that_its_time_is_fixed():
    fixed, free = read_events(
        file_of(make_plan(london("14:00", fixed=True), london("15:00", "b2", place=None)))
    )
    assert str(fixed["DESCRIPTION"]) == "Fixed time\nIn charge there: Þóra Žáček, 01632 960123"
    assert "DESCRIPTION" not in free
    assert "LOCATION" not in free


# RFC 5545, 3.8.4.2: who to speak to, as text.
def test_who_is_in_charge_is_the_contact_too():
    lines = lines_of(file_of(make_plan(london("14:00"))))
    assert r"CONTACT:Þóra Žáček\, 01632 960123" in lines
    alone = london("14:00", place=replace(MILL, coordinator=None))
    assert not [line for line in lines_of(file_of(make_plan(alone))) if line.startswith("CONTACT")]


# RFC 5545, 3.8.1.6 and 3.3.7: plain decimals, at most six of them.
def test_a_spot_near_greenwich_is_written_in_plain_decimals():
    assert "GEO:54.123457;-0.000010" in lines_of(file_of(make_plan(london("14:00"))))


def test_a_place_without_a_spot_has_no_geo():
    nowhere = london("14:00", place=replace(MILL, spot=None))
    on_the_line = london("15:00", "b2", place=replace(MILL, spot=Spot(0, 0)))
    first, second = read_events(file_of(make_plan(nowhere, on_the_line)))
    assert "GEO" not in first
    assert second["GEO"].to_ical() == "0.0;0.0"


def test_a_place_whose_address_begins_with_its_name_is_named_once():
    place = replace(MILL, address="halvorsen mill,\r\n\r\nWeir Lane")
    (event,) = read_events(file_of(make_plan(london("14:00", place=place))))
    assert str(event["LOCATION"]) == "halvorsen mill, Weir Lane"


def test_a_drive_names_where_it_goes():
    drive = london("13:00", kind="travel", title="Drive to %(place)s")
    (event,) = read_events(file_of(make_plan(drive)))
    assert str(event["SUMMARY"]) == "Drive to Halvorsen Mill: Łukasz & Ánh"


def test_leaving_home_rings_half_an_hour_before_and_at_its_time():
    plan = make_plan(london("14:00"))
    leave = datetime(2027, 6, 12, 7, 5, tzinfo=ZoneInfo("Europe/London"))
    calendar = vobject.readOne(file_of(with_leave_home(plan, leave)).decode())
    event = next(e for e in events(calendar) if e.summary.value.startswith("Leave home"))
    alarms = event.contents["valarm"]
    assert event.dtstart.value == leave
    assert event.location.value.startswith("Halvorsen Mill")
    assert [a.trigger.value for a in alarms] == [timedelta(minutes=-30), timedelta()]
    assert {a.action.value for a in alarms} == {"DISPLAY"}
    assert all(a.description.value for a in alarms)
    assert sum("valarm" in e.contents for e in events(calendar)) == 1


def test_the_appointments_before_the_day_are_there():
    zone = ZoneInfo("Europe/London")
    plan = make_plan(
        london("14:00"),
        answers_due=date(2027, 4, 1),
        meeting_at=datetime(2027, 1, 20, 18, tzinfo=zone),
        visit_at=datetime(2027, 6, 1, 17, 30, tzinfo=zone),
    )
    data = file_of(plan)
    found = {event.name: event for event in ics.Calendar(data.decode()).events}
    due = found["Answers due: Łukasz & Ánh"]
    meeting = found["Planning meeting: Łukasz & Ánh"]
    visit = found["Venue visit: Łukasz & Ánh"]
    assert due.all_day
    assert due.begin.date() == date(2027, 4, 1)
    assert meeting.begin.datetime == plan.brief.meeting_at
    assert visit.begin.datetime == plan.brief.visit_at
    assert "In charge there: Þóra Žáček, 01632 960123" in visit.description
    assert "DTSTART;VALUE=DATE:20270401" in lines_of(data)


def test_a_block_that_moves_keeps_its_uid_and_another_wedding_has_others():
    before = read_with_icalendar(file_of(make_plan(london("14:00"), london("15:00", "b2"))))
    moved = make_plan(london("14:20", title="Vows"), london("15:30", "b2"))
    other = make_plan(london("14:00"), london("15:00", "b2"), wedding="d4e5f6")
    assert read_with_icalendar(file_of(moved)).keys() == before.keys()
    assert not read_with_icalendar(file_of(other)).keys() & before.keys()


# A UID that changed would double every entry in calendars that have it already.
def test_uids_are_what_they_were_in_the_first_release():
    assert entry_uid("a1b2c3", "block/b1") == "bb8e3a8a-9e42-5fa4-b1e9-90bca41dabe3"


def test_every_uid_is_there_once():
    plan = make_plan(london("14:00"), london("15:00", "b2"), answers_due=JUNE, meeting_at=None)
    plan = with_leave_home(plan, london("07:05").start)
    uids = [line for line in lines_of(file_of(plan)) if line.startswith("UID:")]
    assert len(uids) == len(set(uids)) == 4


def test_a_calendar_has_no_uid_that_could_be_taken_for_its_entries():
    lines = lines_of(file_of(make_plan(london("14:00"))))
    assert not [line for line in lines[: lines.index("BEGIN:VEVENT")] if line.startswith("UID")]


def test_the_same_plan_gives_the_same_bytes():
    plan = with_leave_home(make_plan(london("14:00")), london("07:05").start)
    first = file_of(plan)
    assert file_of(plan) == first
    later = lines_of(file_of(plan, changed_at=datetime(2026, 12, 1, 8, 0, tzinfo=UTC)))
    assert "LAST-MODIFIED:20261201T080000Z" in later
    assert "DTSTAMP:20261201T080000Z" in later


# RFC 7986, 5.7: the value's type must be named.
def test_the_calendar_says_its_name_once_and_when_to_look_again():
    lines = lines_of(file_of(make_plan(london("14:00"))))
    assert "REFRESH-INTERVAL;VALUE=DURATION:PT6H" in lines
    assert "X-PUBLISHED-TTL:PT6H" in lines
    assert sum(line.startswith("X-WR-CALNAME") for line in lines) == 1


def test_a_wedding_without_names_or_blocks_is_still_a_calendar():
    data = file_of(make_plan(partners=()))
    assert read_events(data) == []
    assert "NAME:Wedding" in lines_of(data)
    nameless = replace(make_plan(london("14:00")), days=make_plan(london("14:00", title="")).days)
    nameless = replace(nameless, brief=replace(nameless.brief, partners=(Partner("", ""),)))
    (event,) = read_events(file_of(nameless))
    assert str(event["SUMMARY"]) == "Something else"


def test_a_drive_that_nobody_timed_is_no_entry():
    drive = london("13:00", minutes=0, kind="travel", title="Drive to %(place)s", untimed=True)
    (event,) = read_events(file_of(make_plan(drive, london("14:00", "b2"))))
    assert str(event["SUMMARY"]).startswith("Ceremony")


def test_rest_and_the_drive_home_are_entries_and_home_is_no_address():
    rest = london("13:00", "d1-rest", kind="rest", title="Eat, drink, sit down")
    home = london("23:30", "drive-d1-pack-home", kind="travel", title="Drive home", place=HOME)
    first, last = read_events(file_of(make_plan(rest, home)))
    assert str(first["SUMMARY"]) == "Eat, drink, sit down: Łukasz & Ánh"
    assert str(last["SUMMARY"]) == "Drive home: Łukasz & Ánh"
    assert "LOCATION" not in last


def test_what_the_second_photographer_does_alone_is_not_in_her_calendar():
    plan = make_plan(london("14:00", "b1", who="both"), london("15:00", "b2", who="me"))
    (day,) = plan.days
    theirs = london("14:30", "b3", who="second", title="The other side")
    plan = replace(plan, days=(replace(day, second=replace(day, blocks=(theirs,))),))
    assert len(read_events(file_of(plan))) == 2
    assert "The other side" not in file_of(plan).decode()
