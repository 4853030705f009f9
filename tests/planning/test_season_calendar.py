"""The season's calendar, and the secret address at which a program fetches it."""

import re
from datetime import UTC, date, datetime, time, timedelta

import icalendar
import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from intake.guessing import MISSES
from intake.models import Day, Moment, Partner, Place, Wedding
from planning import entries
from planning.calendar_links import address_path
from planning.entry import Entry
from planning.models import CalendarAddress, Decisions, GivenEntry, Hours
from planning.season_calendar import MOST, PAST, season_calendar
from studio.member_models import Role
from tests.conftest import member
from tests.page import Page, said

PAGE = reverse("subscription")
TODAY = date(2027, 3, 10)
NOW = datetime(2027, 3, 10, 12, tzinfo=UTC)


@pytest.fixture(autouse=True)
def today(monkeypatch):
    """Sets the clock; it is the tenth of March 2027."""

    def set_clock(moment):
        monkeypatch.setattr(timezone, "now", lambda: moment)

    set_clock(NOW)
    return set_clock


def book(name, day, zone="Europe/London"):
    wedding = Wedding.objects.create(zone=zone)
    Partner.objects.create(wedding=wedding, name=name)
    on = Day.objects.create(wedding=wedding, date=day)
    Hours.objects.create(day=on, starts=time(9), ends=time(23))
    Decisions.objects.create(wedding=wedding)
    mill = Place.objects.create(wedding=wedding, name="Mill", key="mill")
    Moment.objects.create(wedding=wedding, day=on, kind="ceremony", at=time(14), place=mill)
    return wedding


def names(data):
    """Whose ceremony is in a file."""
    found = [str(e["SUMMARY"]) for e in icalendar.Calendar.from_ical(data).walk("VEVENT")]
    return sorted(each.removeprefix("Ceremony: ") for each in found if "Ceremony: " in each)


@pytest.fixture
def address(photographer):
    """The photographer's own, as it stands on the page."""
    photographer.post(PAGE, {"do": "make"})
    return shown(photographer)


def shown(client):
    found = re.search(
        r'value="http://testserver(/calendar/[^"]+)"', client.get(PAGE).content.decode()
    )
    return found and found[1]


def test_nobody_has_an_address_until_they_make_one(photographer):
    assert not CalendarAddress.objects.exists()
    assert shown(photographer) is None
    assert not CalendarAddress.objects.exists()
    photographer.post(PAGE, {"do": "make"})
    assert shown(photographer).endswith(".ics")
    assert "Whoever has the address can read the calendar" in said(photographer.get(PAGE))


def test_the_address_gives_the_season_without_a_sign_in(address):
    book("Ines", TODAY + timedelta(days=90))
    answer = Client().get(address)
    assert answer.status_code == 200
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert names(answer.content) == ["Ines"]
    assert {"private", "no-store"} <= set(answer["Cache-Control"].split(", "))
    assert not answer.cookies


def test_the_download_is_the_same_file(photographer, address):
    book("Ines", TODAY)
    file = photographer.get(reverse("season_calendar"))
    assert file.content == Client().get(address).content
    assert file["Content-Disposition"] == 'attachment; filename="season.ics"'


def test_an_empty_season_is_a_calendar_too(address):
    assert names(Client().get(address).content) == []


def test_weddings_of_different_zones_each_keep_theirs(db):
    book("Ines", TODAY, "Australia/Lord_Howe")
    book("Odile", TODAY, "Asia/Kathmandu")
    data = season_calendar(NOW)
    starts = {
        str(e["SUMMARY"]): e.start.utcoffset()
        for e in icalendar.Calendar.from_ical(data).walk("VEVENT")
        if "Ceremony" in str(e["SUMMARY"])
    }
    assert starts == {
        "Ceremony: Ines": timedelta(hours=11),
        "Ceremony: Odile": timedelta(hours=5, minutes=45),
    }
    assert data.count(b"BEGIN:VTIMEZONE") == 2
    assert data.rindex(b"END:VTIMEZONE") < data.index(b"BEGIN:VEVENT")


def test_past_weddings_stay_for_a_quarter_and_those_without_a_date_are_there(db):
    book("Lida", TODAY - PAST - timedelta(days=1))
    book("Jonas", TODAY - PAST)
    book("Aiko", TODAY + timedelta(days=700))
    undated = Wedding.objects.create(answers_due=TODAY)
    Partner.objects.create(wedding=undated, name="Undated")
    data = season_calendar(NOW)
    assert names(data) == ["Aiko", "Jonas"]
    assert "Answers due: Undated" in data.decode()


def test_a_wedding_in_the_file_alone_and_in_the_season_is_the_same_to_a_reader(photographer):
    wedding = book("Ines", TODAY)
    alone = photographer.get(reverse("calendar", args=[wedding.public_id])).content
    together = photographer.get(reverse("season_calendar")).content
    events = [icalendar.Calendar.from_ical(data).walk("VEVENT") for data in (alone, together)]
    assert events[0]
    assert [e.to_ical() for e in events[0]] == [e.to_ical() for e in events[1]]


def test_what_is_the_studios_own_is_in_the_season(db, monkeypatch):
    until = Entry("insurance/x", "Insurance ends", TODAY, TODAY + timedelta(days=1))
    monkeypatch.setattr(entries, "STUDIO_SOURCES", (lambda: [until],))
    assert "SUMMARY:Insurance ends" in season_calendar(NOW).decode()
    monkeypatch.setattr(entries, "STUDIO_SOURCES", ())
    assert "SUMMARY:Cancelled: Insurance ends" in season_calendar(NOW).decode()


def test_a_reader_that_has_the_newest_hears_that_nothing_changed(address, today):
    wedding, reader = book("Ines", TODAY), Client()
    first = reader.get(address)
    for marks in (
        {"If-None-Match": first["ETag"]},
        {"If-None-Match": f"W/{first['ETag']}"},  # as it comes back through a compressing proxy
        {"If-Modified-Since": first["Last-Modified"]},
    ):
        today(NOW + timedelta(hours=6))
        again = reader.get(address, headers=marks)
        assert (again.status_code, again.content) == (304, b"")
        assert again["ETag"] == first["ETag"]
    wedding.moments.update(at=time(15))
    for marks in (
        {"If-None-Match": first["ETag"]},
        {"If-Modified-Since": first["Last-Modified"]},
    ):
        changed = reader.get(address, headers=marks)
        assert changed.status_code == 200
        assert changed["ETag"] != first["ETag"]
        assert changed["Last-Modified"] != first["Last-Modified"]


def test_a_wedding_that_is_erased_is_a_change_too(address, today):
    wedding, reader = book("Ines", TODAY), Client()
    first = reader.get(address)
    wedding.delete()
    after = reader.get(address, headers={"If-Modified-Since": first["Last-Modified"]})
    assert after.status_code == 200
    assert names(after.content) == []


def test_a_compressed_answer_is_recognised_when_it_is_asked_for_again(address):
    book("Ines", TODAY)
    first = Client().get(address, headers={"Accept-Encoding": "gzip"})
    assert first["Content-Encoding"] == "gzip"
    marks = {"Accept-Encoding": "gzip", "If-None-Match": first["ETag"]}
    assert Client().get(address, headers=marks).status_code == 304


def test_asking_for_the_heads_gives_nothing_and_keeps_nothing_in_mind(address):
    book("Ines", TODAY)
    head = Client().head(address)
    assert head["ETag"]
    assert not GivenEntry.objects.exists()
    assert CalendarAddress.objects.get().digest == ""


def test_a_reader_that_asks_again_writes_nothing(address):
    book("Ines", TODAY)
    Client().get(address)
    with CaptureQueriesContext(connection) as asked:
        Client().get(address)
    assert not [q for q in asked if not q["sql"].startswith("SELECT")]


def wrong_ones(address):
    """Addresses that open nothing: another secret, a cut one, another key, no secret."""
    key, token = address.split("/")[2:]
    yield from (f"/calendar/{key}/{'A' * 27}.ics", f"/calendar/{key}/{token[:-8]}")
    yield from (f"/calendar/nobody/{token}", f"/calendar/{key}/x", f"/calendar/{key}/\0")


def test_wrong_and_revoked_addresses_all_hear_the_same(photographer, address):
    book("Ines", TODAY)
    answers = [Client().get(wrong) for wrong in wrong_ones(address)]
    photographer.post(PAGE, {"do": "revoke"})
    assert shown(photographer) is None
    answers.append(Client().get(address))
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.content for answer in answers}) == 1
    assert "This address gives no calendar" in said(answers[0])
    assert b"Ines" not in answers[0].content


def test_a_new_address_ends_the_one_before(photographer, address):
    photographer.post(PAGE, {"do": "make"})
    new = shown(photographer)
    assert new != address
    assert Client().get(address).status_code == 404
    assert Client().get(new).status_code == 200


def test_a_full_stop_behind_the_address_does_no_harm(address):
    assert Client().get(f"{address}.").status_code == 200


def test_each_photographer_has_an_address_of_their_own(photographer, address, django_user_model):
    tansy, theirs = member(django_user_model, "PHOTOGRAPHER", "tansy"), Client()
    theirs.force_login(tansy)
    assert shown(theirs) is None
    theirs.post(PAGE, {"do": "make"})
    assert shown(theirs) != address
    theirs.post(PAGE, {"do": "revoke"})
    assert Client().get(address).status_code == 200


def test_an_address_ends_with_what_its_owner_may_do(django_user_model):
    tansy = member(django_user_model, "PHOTOGRAPHER", "tansy")
    address = address_path(CalendarAddress.objects.create(user=tansy))
    assert Client().get(address).status_code == 200
    tansy.member.role = Role.SECOND
    tansy.member.save()
    assert Client().get(address).status_code == 404
    tansy.member.role = Role.PHOTOGRAPHER
    tansy.member.save()
    tansy.is_active = False
    tansy.save()
    assert Client().get(address).status_code == 404


def test_whoever_tries_addresses_by_the_hundred_has_to_wait(address):
    for _ in range(MISSES):
        Client().get("/calendar/nobody/x.ics")
    waits = Client().get(address)
    assert waits.status_code == 429
    assert "Wait ten minutes" in said(waits)


def test_the_database_alone_reveals_no_address(address, settings):
    row = CalendarAddress.objects.get()
    assert row.nonce not in address
    settings.SECRET_KEY = "another key of another studio, long enough for every check"
    assert address_path(row) != address


def test_making_and_revoking_are_logged_without_the_address(photographer, caplog):
    caplog.set_level("INFO", logger="foreday.access")
    photographer.post(PAGE, {"do": "make"})
    address = shown(photographer)
    photographer.post(PAGE, {"do": "revoke"})
    assert "calendar address made by account" in caplog.text
    assert "calendar address revoked by account" in caplog.text
    assert address.split("/")[-1] not in caplog.text


def test_the_page_says_when_something_new_was_fetched(photographer, address):
    assert "No calendar has fetched it yet" in said(photographer.get(PAGE))
    Client().get(address)
    assert "last fetched something new on Wednesday 10 March, 12:00" in said(photographer.get(PAGE))
    assert reverse("season_calendar") in Page(photographer.get(PAGE)).links


def test_the_database_is_asked_the_same_for_one_wedding_and_for_five_thousand(address):
    book("Soon", TODAY + timedelta(days=40))
    reader = Client()

    def asked():
        reader.get(address)  # what is new is written once
        with CaptureQueriesContext(connection) as queries:
            assert reader.get(address).status_code == 200
        return len(queries)

    one = asked()
    weddings = Wedding.objects.bulk_create(Wedding(zone="Europe/London") for _ in range(5000))
    many = [TODAY - PAST - timedelta(days=number) for number in range(1, 4961)]
    many += [TODAY + timedelta(days=number) for number in range(40)]
    Day.objects.bulk_create(
        Day(wedding=wedding, date=day) for wedding, day in zip(weddings, many, strict=True)
    )
    assert asked() == one
    assert one < 40
    assert GivenEntry.objects.values("wedding").distinct().count() == 41


def test_there_is_an_end_to_a_season(db):
    weddings = Wedding.objects.bulk_create(Wedding(zone="Europe/London") for _ in range(MOST + 5))
    Day.objects.bulk_create(
        Day(wedding=wedding, date=TODAY + timedelta(days=number))
        for number, wedding in enumerate(weddings)
    )
    season_calendar(NOW)
    given = GivenEntry.objects.values_list("wedding", flat=True)
    assert set(given) == {wedding.pk for wedding in weddings[:MOST]}
