"""Booking a wedding, and changing it: names, days, hours, zones, appointments."""

import re
from datetime import UTC, datetime, time

import pytest
from django.urls import reverse

from intake.models import Day, Moment, Partner, Wedding
from planning.models import Decisions, Hours
from studio.models import Studio
from tests.page import Page, fields, said

NEW = "/weddings/new"
BOOKING = "/w/thora-lukasz/booking"
NAMES = {"first": "Wanjirũ Kamau", "second": "Ödön Szőke"}


def booked(client, **more):
    return client.post(NEW, fields(client, NEW) | NAMES | {"days-0-date": "2027-08-07"} | more)


def test_two_names_and_a_date_are_enough(photographer):
    response = booked(photographer)
    wedding = Wedding.objects.get()
    assert response["Location"] == f"/w/{wedding.public_id}/link"
    assert wedding.names == "Wanjirũ & Ödön"
    assert [str(date) for date in wedding.dates] == ["2027-08-07"]
    assert wedding.decisions.style == "one_place"
    assert wedding.zone == Studio.get().zone


def test_a_wedding_may_have_no_date_yet(photographer):
    assert booked(photographer, **{"days-0-date": ""}).status_code == 302
    assert Wedding.objects.get().dates == []
    assert "no date yet" in said(photographer.get("/"))


def test_a_wedding_may_have_several_days_each_with_its_hours(photographer):
    page = fields(photographer, NEW) | NAMES
    page |= {"days-0-date": "2027-08-07", "days-0-starts": "10:00", "days-0-ends": "1:30"}
    page = Page(photographer.post(NEW, page | {"do": "add-days"})).fields
    assert page["days-0-ends"] == ["1:30"]
    page |= {"days-1-date": "6 August 2027", "days-1-title": "Henna night", "days-1-starts": "5 pm"}
    assert photographer.post(NEW, page).status_code == 302
    first, second = Day.objects.order_by("date")
    assert (first.title, first.hours.starts, first.hours.ends) == ("Henna night", time(17), None)
    assert (second.hours.starts, second.hours.ends) == (time(10), time(1, 30))


def test_adding_a_day_keeps_what_was_typed_and_complains_of_nothing(photographer):
    page = fields(photographer, NEW) | {"first": "", "zone": "Atlantis/Main", "do": "add-days"}
    response = photographer.post(NEW, page | {"days-0-date": "31 June 2027"})
    again = Page(response)
    assert again.fields["zone"] == ["Atlantis/Main"]
    assert again.fields["days-0-date"] == ["31 June 2027"]
    assert again.fields["days-1-date"] == [""]
    assert "mending" not in again.words
    assert not Wedding.objects.exists()


def test_a_wedding_booked_by_two_clicks_is_one_and_a_change_on_the_way_back_is_kept(photographer):
    page = fields(photographer, NEW) | NAMES | {"days-0-date": "2027-08-07"}
    for second in ("Ödön Szőke", "Ödön Szabó"):
        assert photographer.post(NEW, page | {"second": second}).status_code == 302
    assert Wedding.objects.count() == Day.objects.count() == 1
    assert [p.name for p in Partner.objects.all()] == ["Wanjirũ Kamau", "Ödön Szabó"]


def test_two_weddings_of_two_pages_are_two(photographer):
    booked(photographer)
    booked(photographer)
    assert Wedding.objects.count() == 2


@pytest.mark.parametrize("zone", ["", "Atlantis/Main", "../../etc/passwd", "Europe", "localtime"])
def test_a_zone_that_does_not_exist_is_told_and_everything_typed_stays(photographer, zone):
    response = booked(photographer, zone=zone, visit_at="2027-07-01T18:00")
    assert response.status_code == 200
    assert response.content.decode().count("<title>Error: ") == 1
    assert "#id_zone" in Page(response).links
    assert "zone" in said(response).lower()
    assert Page(response).fields["visit_at"] == ["2027-07-01T18:00"]
    assert Page(response).fields["first"] == ["Wanjirũ Kamau"]
    assert not Wedding.objects.exists()


def test_a_zone_may_be_typed_with_spaces(photographer):
    booked(photographer, zone="America/New York")
    assert Wedding.objects.get().zone == "America/New_York"


def test_names_are_needed_and_told_in_the_labels_words(photographer):
    response = booked(photographer, first=" ", second="")
    assert "First partner’s full name: enter something here." in said(response)
    assert "Second partner’s full name: enter something here." in said(response)


def test_a_meeting_is_on_the_studios_clock_and_a_visit_on_the_clock_there(photographer):
    Studio.objects.create(name="Marigold Lane", zone="Europe/London")
    booked(
        photographer,
        zone="Pacific/Auckland",
        meeting_at="2027-06-01T18:00",
        visit_at="2027-08-01T18:00",
    )
    decisions = Decisions.objects.get()
    assert decisions.meeting_at == datetime(2027, 6, 1, 17, 0, tzinfo=UTC)
    assert decisions.visit_at == datetime(2027, 8, 1, 6, 0, tzinfo=UTC)
    page = fields(photographer, reverse("booking", args=[Wedding.objects.get().public_id]))
    assert page["meeting_at"] == ["2027-06-01T18:00"]
    assert page["visit_at"] == ["2027-08-01T18:00"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        # British clocks go forward on the last Sunday of March and back on that of October
        # (Summer Time Act 1972 as amended): 01:30 is skipped, then comes twice.
        ("2027-03-28T01:30", "The clocks change then"),
        ("2027-10-31T01:30", "The clocks change then"),
        ("2027-06-31T18:00", "Enter a date and time that exist"),
        ("tomorrow", "Enter a date and time that exist"),
        ("0001-01-01T00:00", "Look at the year: 1"),
        ("9999-12-31T23:59", "Look at the year: 9999"),
    ],
)
def test_a_meeting_at_a_time_that_is_none_is_told(photographer, typed, words):
    response = booked(photographer, zone="Europe/London", meeting_at=typed, visit_at=typed)
    assert response.status_code == 200
    assert said(response).count(words) == 4  # each in the summary and beside its field
    assert Page(response).fields["meeting_at"] == [typed]
    assert not Wedding.objects.exists()


@pytest.mark.parametrize("year", ["0001", "9999"])
def test_a_day_in_a_year_that_is_a_slip_is_told(photographer, year):
    response = booked(photographer, **{"days-0-date": f"{year}-08-07"}, answers_due=f"{year}-01-01")
    assert said(response).count("Look at the year") == 4


def test_hours_without_a_day_are_told(photographer):
    response = booked(photographer, **{"days-0-date": "", "days-0-starts": "10:00"})
    assert "Date: enter something here." in said(response)


@pytest.mark.parametrize("key", ["", "\0", "x" * 500, "../x", "ż"])
def test_a_forged_key_of_a_day_is_no_harm(photographer, key):
    assert booked(photographer, **{"days-0-key": key}).status_code == 302
    assert Wedding.objects.count() == 1


def test_a_kind_of_day_that_is_none_is_told(photographer):
    assert "choose one that is in the list" in said(booked(photographer, style="secret"))


def test_booking_shows_what_is_stored_and_keeping_it_changes_nothing(photographer, wedding):
    def stored():
        return [list(model.objects.values()) for model in (Wedding, Partner, Day, Hours, Decisions)]

    before, page = stored(), fields(photographer, BOOKING)
    assert page["first"] == ["Þóra Sigurðardóttir"]
    assert (page["days-0-starts"], page["days-0-ends"]) == (["09:00"], ["22:30"])
    assert photographer.post(BOOKING, page)["Location"] == "/w/thora-lukasz/answers"
    assert stored() == before


def test_a_name_that_the_couple_mended_is_not_undone_by_a_booking_page_opened_before(
    photographer, wedding
):
    page = fields(photographer, BOOKING)
    Partner.objects.filter(name__startswith="Łukasz").update(name="Łukasz Wiśniewski-Kowal")
    assert photographer.post(BOOKING, page | {"first": "Þóra Sigurðar"}).status_code == 302
    assert [p.name for p in wedding.partners.all()] == ["Þóra Sigurðar", "Łukasz Wiśniewski-Kowal"]


def test_booking_leaves_the_couples_own_words_alone(photographer, wedding):
    wedding.partners.update(phone="07700 900111", called="Kid")
    page = fields(photographer, BOOKING)
    Wedding.objects.update(matters="The dog", link_nonce="new", sent_at=datetime.now(UTC))
    assert photographer.post(BOOKING, page | {"first": "Þóra S."}).status_code == 302
    wedding.refresh_from_db()
    assert (wedding.matters, wedding.link_nonce) == ("The dog", "new")
    assert wedding.sent_at
    assert {p.phone for p in wedding.partners.all()} == {"07700 900111"}


def test_a_day_is_removed_with_its_hours_and_its_times_stay(photographer, wedding):
    day = wedding.days.get()
    Moment.objects.create(wedding=wedding, kind="ceremony", at=time(14), day=day, key="c")
    page = fields(photographer, BOOKING) | {"days-0-DELETE": "on"}
    page |= {"days-1-date": "2027-06-19", "days-1-key": "moved"}
    assert photographer.post(BOOKING, page).status_code == 302
    assert [str(date) for date in wedding.dates] == ["2027-06-19"]
    assert wedding.moments.count() == 1
    assert photographer.get("/w/thora-lukasz/day").status_code == 200


def test_a_wedding_without_partners_can_be_given_them(photographer):
    wedding = Wedding.objects.create(public_id="bare")
    page = fields(photographer, "/w/bare/booking")
    assert photographer.post("/w/bare/booking", page | NAMES).status_code == 302
    assert wedding.names == "Wanjirũ & Ödön"


def test_the_studio_is_kept_and_told_what_does_not_exist(photographer):
    page = fields(photographer, "/studio") | {"name": "Marigold Lane", "group_minutes": "99"}
    response = photographer.post("/studio", page | {"zone": "Nowhere", "email": "x"})
    words = said(response)
    assert "This needs mending" in words
    assert "Choose a time zone from the list" in words
    assert "Enter an email address like" in words
    assert not Studio.objects.exists()
    for _ in range(2):
        assert photographer.post("/studio", page | {"group_minutes": "3"}).status_code == 302
    assert Studio.objects.get().name == "Marigold Lane"


@pytest.mark.parametrize("page", ["answers", "groups", "light", "day", "map", "papers", "link"])
def test_an_empty_wedding_works_on_every_page(photographer, page):
    Wedding.objects.create(public_id="bare")
    response = photographer.get(f"/w/bare/{page}")
    assert response.status_code == 200
    assert said(response)


@pytest.mark.parametrize("file", ["day-pack.pdf", "calendar.ics"])
def test_an_empty_wedding_has_its_papers(photographer, file):
    Wedding.objects.create(public_id="bare")
    response = photographer.get(f"/w/bare/{file}")
    assert response.status_code == 200
    assert len(response.content) > 100


def test_a_wedding_has_the_studios_language_unless_the_booking_says_another(photographer):
    page = fields(photographer, "/studio") | {"name": "Marigold Lane", "language": "fr"}
    assert photographer.post("/studio", page).status_code == 302
    booked(photographer)
    wedding = Wedding.objects.get()
    assert wedding.language == "fr"
    address = f"/w/{wedding.public_id}/booking"
    page = fields(photographer, address)
    assert page["language"] == ["fr"]
    assert photographer.post(address, page | {"language": "pl"}).status_code == 302
    wedding.refresh_from_db()
    assert wedding.language == "pl"
    response = photographer.post(address, page | {"language": "tlh"})
    assert "choose one that is in the list" in said(response)


@pytest.mark.parametrize("address", ["/studio", NEW])
def test_every_label_begins_with_a_capital(photographer, address):
    labels = re.findall(r"<label[^>]*>\s*([^<]+)", photographer.get(address).text)
    assert len(labels) > 8
    assert [label for label in labels if not label[0].isupper()] == []
