"""The Ready screen: what is due, ticked off by whoever did it, with scripts off."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from intake.models import Contact, Day, Group, Partner, Wedding
from planning.kit_models import BagLine, KitItem
from planning.models import Assigned, Hours, Policy, ReadyTick
from planning.ready_acts import MOST_LETTERS
from studio.models import Studio
from tests.conftest import member
from tests.page import Page, fields, said

PAGE = "/w/thora-lukasz/ready"


@pytest.fixture
def soon(wedding):
    """The wedding is the day after tomorrow, and was booked long ago."""
    return on(wedding, timezone.localdate() + timedelta(days=2))


def on(wedding, day):
    wedding.days.update(date=day)
    Wedding.objects.filter(pk=wedding.pk).update(created_at=datetime(2020, 1, 1, tzinfo=UTC))
    return wedding


def key(wedding, item):
    return f"{item}.{wedding.days.first().key}"


def press(client, do, **typed):
    return client.post(PAGE, fields(client, PAGE) | {"do": do} | typed)


def ticks():
    return list(ReadyTick.objects.values_list("key", "state", "by_name", "note"))


def lines(client):
    return {each for each in Page(client.get(PAGE)).ids if each and each.startswith("line-")}


def test_a_tick_is_kept_with_who_and_when_and_leads_to_the_next_line(photographer, soon):
    response = press(photographer, "done:contract")
    assert response["Location"] == f"{PAGE}#line-sent"
    assert ticks() == [("contract", "done", "marigold", "")]
    assert abs(ReadyTick.objects.get().at - timezone.now()) < timedelta(minutes=1)
    assert "Done: marigold," in said(photographer.get(PAGE))


def test_a_note_is_kept_with_the_tick(photographer, soon):
    press(photographer, "done:stand-in", **{"note-stand-in": "  Ingrid   Solheim "})
    assert ticks() == [("stand-in", "done", "marigold", "Ingrid Solheim")]
    assert "Ingrid Solheim" in said(photographer.get(PAGE))


def test_not_needed_here_is_said_so(photographer, soon):
    press(photographer, "not:visit")
    assert ticks() == [("visit", "not_needed", "marigold", "")]
    assert "Not needed here: marigold," in said(photographer.get(PAGE))


def test_a_tick_is_taken_back(photographer, soon):
    press(photographer, "done:contract")
    tick = ReadyTick.objects.get()
    assert press(photographer, f"open:{tick.pk}:contract").status_code == 302
    assert ticks() == []


def test_a_note_typed_beside_another_line_stays_in_its_box(photographer, soon):
    typed = {"note-stand-in": "Ingrid", "note-contract": "in the folder"}
    response = press(photographer, "done:contract", **typed)
    assert response.status_code == 200
    assert ticks() == [("contract", "done", "marigold", "in the folder")]
    assert Page(response).fields["note-stand-in"] == ["Ingrid"]
    assert "not kept yet" in said(response)


def test_the_return_key_in_a_note_presses_no_lines_button(photographer, soon):
    page = Page(photographer.get(PAGE))
    (note,) = [name for name in page.fields if name == "note-contract"]
    answer = press(photographer, "enter", **{note: "by post"})
    assert Page(answer).fields[note] == ["by post"]
    assert "not kept yet" in said(answer)
    assert press(photographer, "enter").status_code == 302
    assert not ReadyTick.objects.exists()


def test_a_note_too_long_is_told_beside_its_box_and_nothing_is_lost(photographer, soon):
    long = "x" * (MOST_LETTERS + 1)
    response = press(photographer, "done:contract", **{"note-contract": long, "note-sent": "mail"})
    assert response.status_code == 200
    assert f"it has {MOST_LETTERS + 1}" in said(response)
    assert "#note-contract" in Page(response).links
    assert Page(response).fields["note-contract"] == [long]
    assert Page(response).fields["note-sent"] == ["mail"]
    assert ticks() == []


@pytest.mark.parametrize("do", ["", "done:", "done:nothing", "not:cards", "open:1:x", "x:contract"])
def test_a_button_that_is_none_ticks_nothing(photographer, soon, do):
    response = photographer.post(PAGE, {"do": do}, follow=True)
    assert response.status_code == 200
    assert ticks() == []


def test_two_people_ticking_at_once_lose_nothing(photographer, soon, django_user_model):
    """Both have the page open; each ticks a line of their own, then both the same one."""
    other = Client()
    other.force_login(member(django_user_model, "PHOTOGRAPHER", "tansy"))
    hers, theirs = fields(photographer, PAGE), fields(other, PAGE)
    photographer.post(PAGE, hers | {"do": "done:contract"})
    other.post(PAGE, theirs | {"do": "done:stand-in", "note-stand-in": "Ingrid"})
    assert [(row[0], row[2]) for row in ticks()] == [
        ("contract", "marigold"),
        ("stand-in", "tansy"),
    ]
    again = other.post(PAGE, theirs | {"do": "done:contract"}, follow=True)
    assert "marigold had ticked it already" in said(again)
    assert len(ticks()) == 2
    against = other.post(PAGE, theirs | {"do": "not:contract"}, follow=True)
    assert "marigold had said “done” meanwhile" in said(against)
    assert ticks()[0] == ("contract", "done", "marigold", "")


def test_a_note_beside_a_line_that_another_ticked_meanwhile_is_not_lost(photographer, soon):
    shown = fields(photographer, PAGE)
    tick = ReadyTick.objects.create(
        wedding=soon, key="contract", state="done", by_name="tansy", note="mail", at=timezone.now()
    )
    typed = shown | {"do": "done:contract", "note-contract": "folder"}
    response = photographer.post(PAGE, typed, follow=True)
    assert "tansy had ticked it already" in said(response)
    assert ticks() == [("contract", "done", "tansy", "mail; folder")]
    ReadyTick.objects.filter(pk=tick.pk).update(note="x" * MOST_LETTERS)
    response = photographer.post(PAGE, typed, follow=True)
    assert "Your note, to copy: folder" in said(response)
    assert ReadyTick.objects.get().note == "x" * MOST_LETTERS


def test_only_the_tick_that_was_shown_is_taken_back(photographer, soon, django_user_model):
    press(photographer, "done:contract")
    first = ReadyTick.objects.get()
    press(photographer, f"open:{first.pk}:contract")
    other = member(django_user_model, "PHOTOGRAPHER", "tansy")
    ReadyTick.objects.create(
        pk=first.pk + 7, wedding=soon, key="contract", state="done", by=other, by_name="tansy",
        at=timezone.now(),
    )  # fmt: skip
    late = photographer.post(PAGE, {"do": f"open:{first.pk}:contract"}, follow=True)
    assert "tansy has ticked it anew" in said(late)
    assert len(ticks()) == 1


def test_the_name_stays_when_the_account_goes(photographer, soon, django_user_model):
    press(photographer, "done:contract")
    django_user_model.objects.get(username="marigold").delete()
    assert ReadyTick.objects.get().by_name == "marigold"


def test_cards_are_not_ticked_before_the_copies_of_the_wedding_before(photographer, soon):
    day = timezone.localdate() - timedelta(days=7)
    before = Wedding.objects.create()
    Partner.objects.create(wedding=before, name="Ana Obi", key="p")
    theirs = Day.objects.create(wedding=before, date=day, key="theirs")
    cards = key(soon, "cards")
    refused = photographer.post(PAGE, {"do": f"done:{cards}"}, follow=True)
    assert "Two copies of Ana" in said(refused)
    assert ticks() == []
    ReadyTick.objects.create(
        wedding=before, key=f"copies.{theirs.key}", state="done", at=timezone.now()
    )
    press(photographer, f"done:{cards}")
    assert ReadyTick.objects.filter(key=cards).exists()


def test_copies_are_not_ticked_before_the_day(photographer, soon):
    copies = key(soon, "copies")
    response = photographer.post(PAGE, {"do": f"done:{copies}"}, follow=True)
    assert "Not ticked: Two copies" in said(response)
    assert ticks() == []


def test_what_is_late_stands_first(photographer, soon):
    words = said(photographer.get(PAGE))
    assert words.index("Late: do these first") < words.index("Contract signed")
    assert words.index("Contract signed") < words.index("Within a week") < words.index("Bag packed")


def test_a_wedding_booked_for_tomorrow_is_told_calmly(photographer, wedding):
    tomorrow = timezone.localdate() + timedelta(days=1)
    wedding.days.update(date=tomorrow)
    words = said(photographer.get(PAGE))
    assert "Late: do these first" not in words
    assert "The wedding is near, and" in words
    assert "Tick off what is done already, then take the rest from the top" in words
    assert "due now" in words


def test_a_wedding_in_three_years_has_nothing_due_and_shows_the_year(photographer, wedding):
    on(wedding, timezone.localdate() + timedelta(days=3 * 365 + 30))
    words = said(photographer.get(PAGE))
    assert "Nothing is due yet. First, by" in words
    assert f"{(timezone.localdate() + timedelta(days=3 * 365)).year}" in words


def test_a_wedding_that_is_over_asks_for_the_copies_alone(photographer, wedding):
    on(wedding, date(2024, 6, 1))
    words = said(photographer.get(PAGE))
    assert "The wedding is over. 2 things are left; first: Two copies" in words
    assert lines(photographer) == {f"line-{key(wedding, k)}" for k in ("copies", "elsewhere")}


def test_without_a_date_it_says_what_it_counts_from(photographer, wedding):
    wedding.days.all().delete()
    words = said(photographer.get(PAGE))
    assert "There is no date yet" in words
    assert "Once there is a date" in words


def test_what_the_app_knows_is_derived(photographer, soon):
    now = timezone.now()
    Wedding.objects.update(sent_at=now, online="ask")
    soon.agreements.create(number=1, snapshot="", digest="", shared_at=now, confirmed_at=now)
    Group.objects.create(wedding=soon, title="All", key="g", wish="must")
    words = said(photographer.get(PAGE))
    for known in ("They have opened it", "The couple confirmed", "want to be asked before"):
        assert known in words
    assert not {"line-sent", "line-groups", "line-consent"} - lines(photographer)
    assert ticks() == []


def test_helpers_and_the_second_photographer_are_asked_for_where_there_are_any(
    photographer, soon, django_user_model
):
    assert not {"line-helpers", "line-second"} & lines(photographer)
    Group.objects.create(wedding=soon, title="All", key="g", wish="must")
    Contact.objects.create(wedding=soon, listed_as="helper", name="Šimon Dvořák", key="h")
    Assigned.objects.create(wedding=soon, user=member(django_user_model, "SECOND", "aster"))
    assert {"line-helpers", "line-second"} <= lines(photographer)
    assert "Helpers: Šimon Dvořák." in said(photographer.get(PAGE))


def test_insurance_is_held_against_the_date_and_the_country(photographer, soon):
    day = soon.days.get().date
    Policy.objects.create(
        key="p", kind="liability", insurer="Larkmoor Mutual", starts=day, ends=day, countries=["GB"]
    )
    assert "Larkmoor Mutual, until" in said(photographer.get(PAGE))
    soon.decisions.countries = ["GB", "NO"]
    soon.decisions.save()
    assert "does not hold in this country: Norway" in said(photographer.get(PAGE))


def test_each_line_says_why_and_the_first_time_mode_says_it_aloud(photographer, soon):
    quiet = photographer.get(PAGE).content.decode()
    assert 'class="line-why"' not in quiet
    assert "With a copy on the phone nobody has to remember it" in said(photographer.get(PAGE))
    assert "common practice, no source" in said(photographer.get(PAGE))
    press(photographer, "explain")
    assert Studio.get().explains
    assert 'class="line-why"' in photographer.get(PAGE).content.decode()
    press(photographer, "hush")
    assert not Studio.get().explains


def test_times_are_told_on_the_clock_of_the_wedding(photographer, soon):
    Wedding.objects.update(zone="Pacific/Auckland")
    words = said(photographer.get(PAGE))
    assert "Every time is on the clock of the wedding (Pacific/Auckland)" in words
    assert "ahead of yours" in words


def test_both_evenings_of_two_days_are_told_apart(photographer, soon):
    first = soon.days.get()
    second = Day.objects.create(
        wedding=soon, date=first.date + timedelta(days=1), title="Hill blessing", key="d2"
    )
    Hours.objects.create(day=second, starts=time(9), ends=time(20))
    words = said(photographer.get(PAGE))
    assert "Bag packed and counted for Hill blessing" in words
    assert {f"line-bag.{first.key}", "line-bag.d2"} <= lines(photographer)


def test_the_page_asks_the_database_the_same_however_much_is_ticked(photographer, soon):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            photographer.get(PAGE)
        return len(queries)

    Group.objects.create(wedding=soon, title="First", key="g", wish="must")
    before = asked()
    for item in ("contract", "stand-in", "visit", "day-pack"):
        ReadyTick.objects.create(wedding=soon, key=item, state="done", at=timezone.now())
    for number in range(20):
        Group.objects.create(wedding=soon, title=f"{number}", key=f"g{number}", wish="must")
    assert asked() == before < 40


def test_what_is_packed_and_what_charges_is_read_from_the_bag(photographer, soon):
    battery = KitItem.objects.create(kind="battery", title="Spare", power="P1", count=6)
    charger = KitItem.objects.create(kind="charger", title="Twin", power="P1", count=2)
    words = said(photographer.get(PAGE))
    assert "They take about 7.5 h in your chargers: begin by 13:30." in words
    line = BagLine.objects.create(wedding=soon, item=battery, count=2, packed=True)
    BagLine.objects.create(wedding=soon, item=charger, count=1)
    words = said(photographer.get(PAGE))
    assert "They take about 5 h in your chargers: begin by 16:00." in words
    assert "1 of 2 things of the bag are packed." in words
    soon.bag_lines.exclude(pk=line.pk).update(packed=True)
    assert "All 2 things of the bag are packed." in said(photographer.get(PAGE))
