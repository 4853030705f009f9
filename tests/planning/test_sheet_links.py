"""A sheet on somebody else's phone: who may open it, for how long, and how it ends."""

import re
from datetime import UTC, date, datetime, timedelta

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.guessing import MISSES
from intake.models import Contact, Group
from planning.models import BlockDecision, SheetLink
from planning.sheet_links import COOKIE, make_link, sheet_path, sheet_token
from tests.page import Page, said

PAPERS = "/w/thora-lukasz/papers"
LINKS = reverse("phone_links", args=["thora-lukasz"])
SECOND, RAGNAR, AGNIESZKA = "second-photographer:", "calling-list:h1", "calling-list:h2"
DAY = date(2027, 6, 12)


@pytest.fixture(autouse=True)
def today(monkeypatch):
    """Sets the clock; it is the day of the wedding."""

    def set_clock(moment):
        monkeypatch.setattr(timezone, "now", lambda: moment)

    set_clock(datetime(2027, 6, 12, 8, tzinfo=UTC))
    return set_clock


@pytest.fixture
def full(timed):
    """With groups to call, two helpers, and a block of the second photographer's."""
    Group.objects.create(wedding=timed, key="g", title="Witnesses", people="Ana\nBo", wish="must")
    for key, name, side in (("h1", "Ragnar", "first"), ("h2", "Agnieszka", "second")):
        timed.contacts.create(
            key=key, listed_as="helper", name=name, side=side, phone="07700 900111",
            position=int(key[1]),
        )  # fmt: skip
    BlockDecision.objects.create(day=timed.days.get(), key="vows", who="both")
    return timed


def shown_links(client):
    page = client.get(PAPERS).content.decode()
    return re.findall(r'value="http://testserver(/sheet/[^"]+)"', page)


def made(photographer, whose):
    """The address of a link, made on the page and copied from there."""
    before = shown_links(photographer)
    photographer.post(LINKS, {"do": f"make:{whose}"})
    (new,) = set(shown_links(photographer)) - set(before)
    return new


def still_in(photographer):
    """After a leap of the clock, which ends a sign-in."""
    photographer.force_login(User.objects.get(username="marigold"))


def opened(address):
    client = Client()
    return client.get(address, follow=True), client


def test_nobody_has_a_link_until_one_is_made(photographer, full):
    assert shown_links(photographer) == []
    assert not SheetLink.objects.exists()
    made(photographer, SECOND)
    assert len(shown_links(photographer)) == 1


def test_the_link_trades_its_secret_for_a_cookie_and_a_clean_address(photographer, full):
    address = made(photographer, SECOND)
    client = Client()
    response = client.get(address)
    link = SheetLink.objects.get()
    assert response["Location"] == f"/sheet/{link.key}"
    cookie = response.cookies[COOKIE]
    assert cookie["httponly"]
    assert cookie["path"] == f"/sheet/{link.key}"
    assert cookie["samesite"] == "Lax"
    assert sheet_token(link) not in client.get(response["Location"]).content.decode()


def test_the_second_photographer_sees_their_own_part(photographer, full):
    page, _client = opened(made(photographer, SECOND))
    assert "14:00 Ceremony" in said(page)
    assert "20:30" not in said(page)
    assert "Show no picture of the day to anybody" in said(page)


def test_each_helper_sees_their_own_calling_list(photographer, full):
    for whose, name, other in (
        (RAGNAR, "Ragnar", "Agnieszka: knows"),
        (AGNIESZKA, "Agnieszka", "Ragnar: knows"),
    ):
        page, _client = opened(made(photographer, whose))
        assert f"Calling list {name} ·" in said(page)
        assert other in said(page)
        assert "Call together first: Ana, Bo" in said(page)
        assert "07700 900111" not in said(page)


def test_a_link_stays_its_helpers_when_the_list_is_put_in_another_order(photographer, full):
    address = made(photographer, AGNIESZKA)
    full.contacts.filter(key="h2").update(position=0)
    page, _client = opened(address)
    assert "Calling list Agnieszka ·" in said(page)


def test_one_link_opens_nothing_of_another(photographer, full):
    _page, ragnar = opened(made(photographer, RAGNAR))
    made(photographer, SECOND)
    second = SheetLink.objects.get(sheet="second-photographer")
    for cookie in ragnar.cookies.values():
        cookie["path"] = "/"
    assert ragnar.get(f"/sheet/{second.key}").status_code == 404
    assert ragnar.get(PAPERS).status_code == 302


def test_nothing_is_kept_by_a_browser_or_listed_by_a_search_engine(photographer, full):
    page, _client = opened(made(photographer, SECOND))
    assert {"private", "no-store"} <= set(page["Cache-Control"].split(", "))
    assert page["Referrer-Policy"] in {"same-origin", "no-referrer"}
    assert '<meta name="robots" content="noindex, nofollow">' in page.content.decode()


def wrong_ones(address):
    """Another secret, a cut one, another key, a page without its cookie."""
    _, _sheet, key, token = address.split("/")
    yield from (f"/sheet/{key}/{'A' * 27}", f"/sheet/{key}/{token[:-3]}", f"/sheet/nobody/{token}")
    yield from (f"/sheet/{key}", "/sheet/nobody", f"/sheet/{key}/\0")


def test_wrong_old_revoked_and_past_links_all_hear_the_same(photographer, full, today):
    old = made(photographer, SECOND)
    new = made(photographer, SECOND)
    gone = made(photographer, RAGNAR)
    photographer.post(LINKS, {"do": f"revoke:{RAGNAR}"})
    answers = [Client().get(each) for each in (*wrong_ones(new), old, gone)]
    today(datetime(2027, 7, 1, tzinfo=UTC))
    answers.append(Client().get(new))
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.content for answer in answers}) == 1
    assert len({str(dict(answer.headers)) for answer in answers}) == 1
    assert "This link does not open anything" in said(answers[0])


@pytest.mark.parametrize("do", ["make", "revoke"])
def test_a_new_or_revoked_link_ends_the_page_that_is_open(photographer, full, do):
    _page, client = opened(made(photographer, SECOND))
    address = f"/sheet/{SheetLink.objects.get().key}"
    assert client.get(address).status_code == 200
    photographer.post(LINKS, {"do": f"{do}:{SECOND}"})
    assert client.get(address).status_code == 404


def test_a_helper_who_is_taken_out_of_the_answers_has_no_link_any_more(photographer, full):
    address = made(photographer, RAGNAR)
    Contact.objects.get(key="h1").delete()
    assert opened(address)[0].status_code == 404


def test_it_stops_by_itself_seven_days_after_the_last_day_on_the_weddings_clocks(
    photographer, full, today
):
    """The nineteenth of June ends in London at 23:00 UTC (British Summer Time)."""
    address = made(photographer, SECOND)
    words = said(photographer.get(PAPERS))
    assert "7 days after the wedding, at the end of Saturday 19 June 2027" in words
    end = datetime(2027, 6, 19, 23, tzinfo=UTC)
    today(end - timedelta(seconds=1))
    page, client = opened(address)
    assert "It works until the end of Saturday 19 June 2027" in said(page)
    today(end)
    assert opened(address)[0].status_code == 404
    assert client.get(f"/sheet/{SheetLink.objects.get().key}").status_code == 404
    still_in(photographer)
    assert shown_links(photographer) == []
    assert "no link of this wedding opens anything any more" in said(photographer.get(PAPERS))


def test_a_wedding_that_is_put_off_takes_its_links_along(photographer, full, today):
    address = made(photographer, SECOND)
    full.days.update(date=DAY + timedelta(days=60))
    today(datetime(2027, 7, 20, tzinfo=UTC))
    assert opened(address)[0].status_code == 200


def test_without_a_date_or_after_the_end_none_can_be_made(photographer, full, today):
    today(datetime(2027, 6, 20, tzinfo=UTC))
    still_in(photographer)
    response = photographer.post(LINKS, {"do": f"make:{RAGNAR}"}, follow=True)
    assert "No link can be made" in said(response)
    full.days.all().delete()
    response = photographer.post(LINKS, {"do": f"make:{RAGNAR}"}, follow=True)
    assert "No link can be made" in said(response)
    assert "Give the wedding a date first" in said(response)
    assert not SheetLink.objects.exists()


WRONG = ["", "make", "make:day-pack:", "make:calling-list:x", "x:y", "\0", f"drop:{SECOND}"]


@pytest.mark.parametrize("do", WRONG)
def test_what_is_not_offered_is_not_made(photographer, full, do):
    response = photographer.post(LINKS, {"do": do}, follow=True)
    assert "Nothing was changed" in said(response)
    assert not SheetLink.objects.exists()


def test_nothing_to_read_is_said_and_offered_no_link(photographer, wedding):
    assert "There is nothing to read yet" in said(photographer.get(PAPERS))


def test_where_no_helper_is_named_whoever_calls_has_the_list(photographer, full):
    full.contacts.all().delete()
    page, _client = opened(made(photographer, "calling-list:"))
    assert "Call together first: Ana, Bo" in said(page)


def test_a_sheet_that_has_become_empty_says_so(photographer, full):
    address = made(photographer, SECOND)
    BlockDecision.objects.all().delete()
    assert "Nothing is planned for this sheet yet" in said(opened(address)[0])
    assert len(shown_links(photographer)) == 1  # it can still be switched off


def test_whoever_tries_links_by_the_hundred_has_to_wait(photographer, full):
    address = made(photographer, SECOND)
    _page, holder = opened(address)
    for _ in range(MISSES):
        Client().get("/sheet/nobody/x")
    waits = Client().get(address)
    assert waits.status_code == 429
    assert "Wait ten minutes" in said(waits)
    assert holder.get(address)["Location"] == f"/sheet/{SheetLink.objects.get().key}"


def test_a_full_stop_behind_the_link_does_no_harm(photographer, full):
    assert opened(made(photographer, SECOND) + ".")[0].status_code == 200


def test_the_database_alone_reveals_no_link(full, settings):
    make_link(full, "second-photographer", "", by=1)
    link = SheetLink.objects.get()
    address = sheet_path(link)
    assert link.nonce not in address
    assert len(sheet_token(link)) * 6 >= 128
    settings.SECRET_KEY = "another key of another studio, long enough for every check"
    assert sheet_path(link) != address


def test_making_and_revoking_are_logged_without_the_link(photographer, full, caplog):
    caplog.set_level("INFO", logger="foreday.access")
    address = made(photographer, RAGNAR)
    photographer.post(LINKS, {"do": f"revoke:{RAGNAR}"})
    assert "a link to a calling-list of thora-lukasz made by account" in caplog.text
    assert "a link to a calling-list of thora-lukasz revoked by account" in caplog.text
    assert address.split("/")[-1] not in caplog.text
    assert "Ragnar" not in caplog.text


def test_every_jump_of_a_sheet_lands(photographer, full):
    page, _client = opened(made(photographer, SECOND))
    jumps = re.findall(r'<li><a href="#(\w+)">', page.content.decode())
    assert jumps
    assert set(jumps) <= Page(page).ids


def test_a_date_mistyped_to_the_end_of_the_calendar_breaks_no_page(photographer, full):
    full.days.update(date=date(9999, 12, 31))
    assert photographer.get(PAPERS).status_code == 200


def test_links_go_with_their_wedding(photographer, full):
    made(photographer, SECOND)
    full.delete()
    assert not SheetLink.objects.exists()
