"""The couple's private link: who may open what, and what a wrong one shows."""

import pytest
from django.conf import settings
from django.core import signing
from django.test import Client
from django.urls import reverse

from intake.keys import TOKEN_BYTES
from intake.links import COOKIE, link_path, link_token, make_new_link
from intake.models import Partner, StepState, Wedding
from intake.steps import STEPS
from tests.page import Page, fields, said

CALM = "This link does not open anything"


def assert_calm(response):
    """A page that says what to do, and nothing of any wedding."""
    assert response.status_code == 404
    assert CALM in said(response)
    assert "ask your photographer for a new link" in said(response)
    for secret in ("Þóra", "Łukasz", "Wanjirũ", "Heron", "thora-lukasz"):
        assert secret not in response.content.decode()
    assert "no-store" in response["Cache-Control"]
    assert response["Referrer-Policy"] == "same-origin"
    assert COOKIE not in response.cookies


def test_the_link_trades_its_secret_for_a_cookie_and_a_clean_address(wedding, client):
    response = client.get(link_path(wedding))
    assert response.status_code == 302
    assert response["Location"] == "/q/thora-lukasz/"
    assert link_token(wedding) not in response["Location"]
    assert "no-store" in response["Cache-Control"]
    cookie = response.cookies[COOKIE]
    assert cookie["httponly"]
    assert cookie["path"] == "/q/thora-lukasz/"
    assert cookie["samesite"] == "Lax"
    assert int(cookie["max-age"]) <= 400 * 24 * 3600
    assert link_token(wedding) not in (cookie["expires"], cookie["path"])


def test_the_secret_is_longer_than_guessing_allows(wedding):
    # OWASP ASVS 5.0, row 11.5.1: at least 128 bits.
    assert TOKEN_BYTES * 8 >= 128
    assert len(link_token(wedding)) * 6 >= TOKEN_BYTES * 8


def test_the_database_alone_does_not_reveal_the_link(wedding):
    before = link_token(wedding)
    stored = str(Wedding.objects.values().get(pk=wedding.pk))
    assert before not in stored
    key = settings.SECRET_KEY
    try:
        settings.SECRET_KEY = "another key altogether, which a thief of the file lacks"
        assert link_token(wedding) != before
    finally:
        settings.SECRET_KEY = key


@pytest.mark.parametrize("cut", [1, 5, 26])
def test_a_cut_off_link_shows_a_calm_page(wedding, client, cut):
    assert_calm(client.get(link_path(wedding)[:-cut]))


@pytest.mark.parametrize(
    "address",
    [
        "/q/thora-lukasz/",
        "/q/thora-lukasz/read-through",
        "/q/thora-lukasz/step/groups",
        "/q/thora-lukasz/step/nothing",
        "/q/thora-lukasz/step",
        "/q/thora-lukasz/wrong",
        "/q/thora-lukasz/wrong/and/longer",
        "/q/thora-lukasz/%C5%81ukasz%00",
        "/q/thora-lukasz/..%2f..%2f",
        "/q/nobody/",
        "/q/nobody/step/groups",
        "/q/nobody/" + "a" * 5000,
    ],
)
def test_who_has_no_link_sees_the_same_calm_page_everywhere(wedding, client, address):
    assert_calm(client.get(address))


def test_a_wedding_that_is_not_there_looks_like_a_link_that_is_wrong(wedding, client):
    there = client.get("/q/thora-lukasz/wrong").content
    assert client.get("/q/nobody/wrong").content == there


def test_a_new_link_ends_the_old_one_and_every_cookie_it_gave(wedding, couple):
    old = link_path(wedding)
    assert couple.get("/q/thora-lukasz/").status_code == 200
    make_new_link(wedding)
    assert_calm(couple.get("/q/thora-lukasz/"))
    assert_calm(couple.post("/q/thora-lukasz/step/groups", {"do": "save"}))
    assert_calm(Client().get(old))
    assert couple.get(link_path(wedding), follow=True).status_code == 200


def test_what_was_typed_behind_a_dead_link_is_there_to_copy(wedding, couple):
    page = fields(couple, "/q/thora-lukasz/step/groups")
    page |= {"groups-0-title": "Parents", "groups-0-people": "Ödön\n</textarea><b>Bo"}
    make_new_link(wedding)
    response = couple.post("/q/thora-lukasz/step/groups", page | {"do": "save"})
    typed = Page(response).words.split("to copy:")[1].split()
    assert typed[:2] == ["Parents", "Ödön"]
    assert "&lt;/textarea&gt;&lt;b&gt;Bo" in response.content.decode()
    for hidden in ("csrfmiddlewaretoken", "groups-0-key"):
        assert page[hidden][0] not in response.content.decode()
    assert not StepState.objects.exists()
    assert "to copy" not in said(couple.get("/q/thora-lukasz/step/groups"))


def test_one_couples_cookie_opens_no_other_wedding(wedding, other, couple):
    couple.cookies[COOKIE]["path"] = "/"  # as if a browser ignored the path
    assert_calm(couple.get("/q/wanjiru-odon/"))
    assert_calm(couple.get("/q/wanjiru-odon/step/groups"))
    assert_calm(couple.get("/q/wanjiru-odon/" + link_token(wedding)))


@pytest.mark.parametrize(
    "value",
    ["", "x", "a:b:c", "null:1:x", "é" * 40, ":" * 4000, ".eJwr:1:2"],
)
def test_a_forged_cookie_opens_nothing(wedding, client, value):
    client.cookies[COOKIE] = value
    assert_calm(client.get("/q/thora-lukasz/"))


def test_a_cookie_signed_for_another_purpose_opens_nothing(wedding, client):
    client.cookies[COOKIE] = signing.dumps(link_token(wedding), salt="another purpose")
    assert_calm(client.get("/q/thora-lukasz/"))
    client.cookies[COOKIE] = signing.dumps(["not", "text"], salt="intake.cookie")
    assert_calm(client.get("/q/thora-lukasz/"))


def test_opening_pages_changes_nothing(wedding, couple):
    def everything():
        return [
            list(model.objects.order_by("pk").values()) for model in (Wedding, Partner, StepState)
        ]

    before = everything()
    couple.get(link_path(wedding))
    couple.head(link_path(wedding))
    for address in ("", "read-through", *(f"step/{step.slug}" for step in STEPS)):
        page = f"/q/thora-lukasz/{address}"
        assert couple.get(page).status_code == 200
        assert couple.head(page).status_code == 200
        assert couple.get(page, {"do": "save", "partners-0-name": "Mallory"}).status_code == 200
    assert everything() == before


def test_every_page_of_the_couple_is_kept_by_no_cache_and_tells_no_other_site(wedding, couple):
    for address in ("", "read-through", "step/day"):
        response = couple.get(f"/q/thora-lukasz/{address}")
        assert "no-store" in response["Cache-Control"]
        assert "private" in response["Cache-Control"]
        assert response["Referrer-Policy"] == "same-origin"
        assert response["X-Frame-Options"] == "DENY"
        assert "frame-ancestors 'none'" in response["Content-Security-Policy"]
        assert "noindex" in response.content.decode()


@pytest.mark.parametrize("method", ["put", "patch", "delete", "options", "trace"])
def test_a_method_that_is_not_allowed_is_refused(wedding, couple, method):
    for address in ("", "read-through", "step/day", link_token(wedding)):
        response = getattr(couple, method)(f"/q/thora-lukasz/{address}")
        assert response.status_code == 405
        assert response["Allow"]


def test_a_link_or_a_list_cannot_be_posted_to(wedding, couple):
    assert couple.post(link_path(wedding)).status_code == 405
    assert couple.post("/q/thora-lukasz/").status_code == 405


def test_a_form_without_its_secret_is_refused_calmly(wedding):
    client = Client(enforce_csrf_checks=True)
    client.get(link_path(wedding))
    for address in ("step/groups", "read-through"):
        response = client.post(f"/q/thora-lukasz/{address}", {"groups-0-title": "Parents"})
        assert response.status_code == 403
        assert "This page had been open too long" in said(response)
        assert "Nothing is lost" in said(response)
        assert "Parents" in said(response)
    assert not StepState.objects.exists()
    wedding.refresh_from_db()
    assert wedding.sent_at is None


def test_the_real_form_carries_the_secret_that_is_asked_for(wedding):
    client = Client(enforce_csrf_checks=True)
    client.get(link_path(wedding))
    address = reverse("step", args=["thora-lukasz", "two-of-you"])
    assert client.post(address, fields(client, address)).status_code == 302


def test_the_photographer_opens_the_couples_pages_without_their_link(wedding, photographer):
    response = photographer.get("/q/thora-lukasz/step/groups")
    assert response.status_code == 200
    assert "You are signed in as the photographer" in said(response)
