"""The couple's list of steps, and reading everything through before it is sent."""

from datetime import UTC, date, datetime

from django.test import Client

from intake.models import CareNote, StepState
from intake.steps import STEPS
from tests.page import Page, fields, said

LIST = "/q/thora-lukasz/"
READ = "/q/thora-lukasz/read-through"


def test_the_list_names_the_couple_the_day_and_every_step(wedding, couple):
    response = couple.get(LIST)
    words = said(response)
    assert "Þóra & Łukasz" in words
    assert "Saturday 12 June 2027" in words
    for step in STEPS:
        assert str(step.title) in words
        assert f"{LIST}step/{step.slug}" in Page(response).links
    assert words.count("not started") == len([s for s in STEPS if not s.optional])


def test_the_list_says_by_when_answers_are_wanted(wedding, couple):
    wedding.answers_due = date(2027, 4, 9)
    wedding.save()
    assert "Please send it by Friday 9 April 2027" in said(couple.get(LIST))


def test_steps_are_kept_in_any_order(wedding, couple):
    for step in reversed(STEPS):
        url = f"{LIST}step/{step.slug}"
        assert couple.post(url, fields(couple, url)).status_code == 302
    assert "not started" not in said(couple.get(LIST))


def test_nothing_is_sent_until_the_button_is_pressed(wedding, couple):
    words = said(couple.get(READ))
    assert "Nothing is sent until you press the button" in words
    assert "Some things are missing. You can send it now" in words
    wedding.refresh_from_db()
    assert wedding.sent_at is None


def test_sending_says_so_and_everything_can_still_change(wedding, couple):
    response = couple.post(READ, follow=True)
    assert "Sent. Thank you" in said(response)
    assert "You can still change anything here" in said(response)
    wedding.refresh_from_db()
    assert wedding.sent_at
    assert "You have sent this already" in said(couple.get(READ))
    url = f"{LIST}step/care"
    assert couple.post(url, fields(couple, url)).status_code == 302


def test_the_day_of_sending_is_told_on_the_weddings_own_clock(wedding, couple):
    wedding.zone, wedding.sent_at = "Pacific/Auckland", datetime(2027, 3, 1, 20, 0, tzinfo=UTC)
    wedding.save()
    assert "Sent on Tuesday 2 March" in said(couple.get(LIST))


def test_every_answer_can_be_changed_from_where_it_is_read(wedding, couple):
    CareNote.objects.create(wedding=wedding, key="c", person="Oma", kind="seat", note="A\nchair")
    response = couple.get(READ)
    assert "Oma" in said(response)
    assert "cannot stand long" in said(response)
    assert "A<br>chair" in response.content.decode()
    for step in STEPS:
        assert f"{LIST}step/{step.slug}?from=read-through" in Page(response).links


def test_a_step_that_is_begun_but_not_kept_is_pointed_out_before_sending(wedding, couple):
    StepState.objects.create(wedding=wedding, slug="groups", draft={"groups-0-title": ["Parents"]})
    assert "begun, not kept yet" in said(couple.get(READ))


def test_markup_in_an_answer_is_shown_as_it_was_typed(wedding, couple):
    wedding.matters = "<img src=x onerror=alert(1)> & “quotes”"
    wedding.save()
    page = couple.get(READ).content.decode()
    assert "&lt;img src=x" in page
    assert "<img src=x" not in page


def test_an_empty_wedding_has_all_its_pages(db):
    from intake.links import link_path
    from intake.models import Wedding

    bare = Wedding.objects.create()
    client = Client()
    assert client.get(link_path(bare), follow=True).status_code == 200
    for address in ("read-through", *(f"step/{step.slug}" for step in STEPS)):
        assert client.get(f"/q/{bare.public_id}/{address}").status_code == 200
    url = f"/q/{bare.public_id}/step/two-of-you"
    names = {"partners-0-name": "Ada", "partners-1-name": "Bo"}
    assert client.post(url, fields(client, url) | names).status_code == 302
    assert bare.names == "Ada & Bo"
