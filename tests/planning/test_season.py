"""Season: the weddings by date, and what each waits for in words."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from intake.models import Contact, Day, Moment, Partner, Place, StepState, Wedding
from intake.steps import STEPS
from planning.models import Decisions
from planning.season import PAGE, season_page
from studio.models import Studio
from tests.page import said

NOW = datetime(2027, 3, 10, 12, 0, tzinfo=UTC)


def waits(now=NOW):
    (entry,) = season_page(now, None, past=False).object_list
    return entry


def keep(wedding, *slugs):
    for slug in slugs:
        StepState.objects.create(wedding=wedding, slug=slug, saved_at=NOW)


def answer_everything(wedding):
    keep(wedding, *(step.slug for step in STEPS))
    wedding.partners.update(phone="07700 900111")
    Wedding.objects.filter(pk=wedding.pk).update(online="ask")
    Moment.objects.create(wedding=wedding, kind="ceremony", at=time(14), key="c")
    Place.objects.create(wedding=wedding, name="Mill", wet_plan="The loft", key="loft")
    Contact.objects.create(wedding=wedding, listed_as="helper", name="Šimon", key="h")


def send(wedding):
    Wedding.objects.filter(pk=wedding.pk).update(sent_at=NOW)


def test_a_wedding_nobody_began_waits_for_the_couples_answers(wedding):
    assert waits().waits_for == "the couple’s answers, not begun"
    assert not waits().urgent


def test_a_wedding_without_decisions_or_anything_else_is_listed_too(db):
    Wedding.objects.create()
    assert waits().waits_for == "the couple’s answers, not begun"


def test_begun_answers_are_counted_and_a_draft_counts_as_begun(wedding):
    StepState.objects.create(wedding=wedding, slug="groups", draft={"groups-0-title": ["x"]})
    assert waits().waits_for == "the couple’s answers, 0 of 8 steps kept"
    keep(wedding, "day", "care")
    assert waits().waits_for == "the couple’s answers, 2 of 8 steps kept"


def test_when_every_step_is_kept_they_have_to_send_it(wedding):
    keep(wedding, *(step.slug for step in STEPS))
    assert waits().waits_for == "the couple to send: every step is kept"


def test_late_answers_are_marked_in_words(wedding):
    wedding.answers_due = date(2027, 3, 10)
    wedding.save()
    assert "late" not in waits().waits_for  # until the day is over
    entry = waits(NOW + timedelta(days=1))
    assert entry.waits_for == "late, due 10 March: the couple’s answers, not begun"
    assert entry.urgent
    send(wedding)
    assert "late" not in waits(NOW + timedelta(days=1)).waits_for


def test_the_day_is_over_when_it_is_over_where_the_studio_is(wedding):
    Studio.objects.create(name="Marigold Lane", zone="Pacific/Auckland")
    wedding.answers_due = date(2027, 3, 10)
    wedding.save()
    assert "late" in waits().waits_for  # 11 March, one in the morning, in Auckland


def test_answers_that_were_sent_with_things_missing_say_how_many(wedding):
    answer_everything(wedding)
    send(wedding)
    wedding.partners.update(phone="")
    assert waits().waits_for == "sent, 1 thing missing"
    Contact.objects.all().delete()
    assert waits().waits_for == "sent, 2 things missing"


def test_sent_whole_the_next_is_the_meeting_then_the_visit_then_the_day(wedding):
    answer_everything(wedding)
    send(wedding)
    assert waits().waits_for == "a planning meeting to agree"
    Decisions.objects.update(meeting_at=datetime(2027, 4, 1, 17, 0, tzinfo=UTC))
    assert waits().waits_for == "planning meeting on 1 April"
    Decisions.objects.update(visit_at=datetime(2027, 6, 1, 17, 0, tzinfo=UTC))
    assert waits().waits_for == "planning meeting on 1 April"
    assert waits(datetime(2027, 4, 1, 18, 0, tzinfo=UTC)).waits_for == "venue visit on 1 June"
    assert waits(datetime(2027, 6, 1, 18, 0, tzinfo=UTC)).waits_for == "the day"


def test_a_summary_that_was_shared_waits_for_the_couple_until_they_confirm_it(wedding):
    answer_everything(wedding)
    send(wedding)
    wedding.decisions.meeting_at = NOW - timedelta(days=1)
    wedding.decisions.save()
    shared = wedding.agreements.create(number=1, snapshot="{}", digest="0", shared_at=NOW)
    assert waits().waits_for == "the couple to confirm what was agreed"
    shared.confirmed_at = NOW
    shared.save()
    assert waits().waits_for == "the day"
    wedding.agreements.create(number=2, snapshot="{}", digest="0", shared_at=NOW)
    assert waits().waits_for == "the couple to confirm what was agreed"


def test_a_wedding_without_a_venue_visit_waits_for_the_day(wedding):
    answer_everything(wedding)
    send(wedding)
    Decisions.objects.update(meeting_at=datetime(2027, 3, 1, 17, 0, tzinfo=UTC))
    assert waits().waits_for == "the day"


def test_a_meeting_is_dated_by_the_studios_clock_and_a_visit_by_the_clock_there(wedding):
    answer_everything(wedding)
    send(wedding)
    Wedding.objects.update(zone="Pacific/Auckland")
    late = datetime(2027, 4, 1, 23, 30, tzinfo=UTC)  # half past midnight in London
    Decisions.objects.update(meeting_at=late, visit_at=late + timedelta(days=1))
    assert waits().waits_for == "planning meeting on 2 April"
    assert waits(late + timedelta(hours=1)).waits_for == "venue visit on 3 April"


def book(name, *dates):
    wedding = Wedding.objects.create()
    Partner.objects.create(wedding=wedding, name=name, key="p")
    for each in dates:
        Day.objects.create(wedding=wedding, date=each, key=f"d{each}")
    Place.objects.create(wedding=wedding, name="Mill", wet_plan="The barn", key="m")
    Decisions.objects.create(wedding=wedding)
    return wedding


def names(past=False):
    return [entry.wedding.names for entry in season_page(NOW, None, past).object_list]


def test_weddings_stand_by_date_and_those_without_one_at_the_end(db):
    book("Undated")
    book("June", date(2027, 6, 1))
    book("May", date(2027, 5, 1))
    book("Today", date(2027, 3, 10))
    book("Yesterday", date(2027, 3, 9))
    book("January", date(2027, 1, 9))
    assert names() == ["Today", "May", "June", "Undated"]
    assert names(past=True) == ["Yesterday", "January"]


def test_a_wedding_of_two_days_is_ahead_until_the_last_is_over(db):
    book("Both", date(2027, 3, 9), date(2027, 3, 10))
    assert names() == ["Both"]


def test_a_wedding_is_past_when_its_day_is_over_where_the_studio_is(db):
    book("Today", date(2027, 3, 10))
    assert names() == ["Today"]
    Studio.objects.create(name="Marigold Lane", zone="Pacific/Auckland")
    assert names() == []
    assert names(past=True) == ["Today"]


def test_a_past_wedding_waits_to_be_erased(db):
    book("Past", date(2026, 6, 1))
    (entry,) = season_page(NOW, None, past=True).object_list
    assert entry.waits_for == "its answers to be erased by 1 June 2027"


@pytest.mark.parametrize("address", ["/", "/?past", "/?q=wedding", "/?q=mill&page=2"])
def test_season_asks_the_database_the_same_for_one_wedding_and_for_a_hundred(photographer, address):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            assert photographer.get(address).status_code == 200
        return len(queries)

    def book_whole(number):
        days = -30 - number if address == "/?past" else 30 + number
        wedding = book(f"Wedding {number}", timezone.localdate() + timedelta(days=days))
        answer_everything(wedding)
        send(wedding)

    book_whole(0)
    photographer.get("/")
    one = asked()
    for number in range(1, 100):
        book_whole(number)
    assert asked() == one
    assert one < 32


@pytest.mark.parametrize("page", ["", "2", "0", "-1", "x", "99999999999999999999", "\0"])
def test_pages_that_do_not_exist_lead_to_one_that_does(photographer, page):
    ahead = timezone.localdate() + timedelta(days=30)
    for number in range(PAGE + 1):
        book(f"Wedding {number}", ahead)
    response = photographer.get("/", {"page": page})
    assert response.status_code == 200
    assert "Page 1 of 2" in said(response) or "Page 2 of 2" in said(response)


def test_the_page_says_who_where_when_and_what_next(photographer, wedding):
    Place.objects.create(wedding=wedding, name="Mäkelä’s Mill", key="m")
    words = said(photographer.get("/"))
    for part in ("12 June 2027", "Þóra & Łukasz", "Mäkelä’s Mill", "not begun"):
        assert part in words
    assert "No wedding has passed yet" in said(photographer.get("/?past"))


def test_an_empty_season_says_how_to_begin(photographer):
    assert "two names and a date are enough" in said(photographer.get("/"))
