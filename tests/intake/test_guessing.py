"""Whoever tries secret links by the hundred is slowed down, and no couple with them."""

import logging

import pytest
from django.test import Client

from intake import guessing
from intake.links import link_path
from tests.page import said

WRONG = "/q/thora-lukasz/wrong"


@pytest.fixture
def guesser(wedding):
    """A client from whose address too many wrong links came."""
    client = Client()
    for _ in range(guessing.MISSES):
        assert client.get(WRONG).status_code == 404
    return client


def test_after_fifty_misses_even_the_right_link_waits(guesser, wedding):
    for address in (WRONG, link_path(wedding)):
        page = guesser.get(address)
        assert page.status_code == 429
        assert "Wait ten minutes" in said(page)


def test_after_the_wait_the_link_opens(guesser, wedding, monkeypatch):
    now = guessing.time.monotonic()
    monkeypatch.setattr(guessing.time, "monotonic", lambda: now + guessing.SECONDS + 1)
    assert guesser.get(link_path(wedding)).status_code == 302


def test_a_browser_that_is_in_stays_in(wedding, couple, guesser):
    assert couple.get("/q/thora-lukasz/").status_code == 200
    assert couple.get(link_path(wedding)).url == "/q/thora-lukasz/"


def test_another_address_is_not_kept_waiting(guesser, wedding):
    elsewhere = Client(REMOTE_ADDR="203.0.113.7")
    assert elsewhere.get(link_path(wedding)).status_code == 302


def test_a_dead_page_that_goes_on_keeping_is_no_guess(wedding):
    client = Client()
    for _ in range(guessing.MISSES + 1):
        assert client.post("/q/thora-lukasz/step/couple", {"do": "draft"}).status_code == 404
    assert client.get(link_path(wedding)).status_code == 302


def test_the_log_tells_of_a_miss_and_not_of_the_link(wedding, client, caplog):
    caplog.set_level(logging.INFO)
    client.get(WRONG)
    client.get(link_path(wedding)[:-1])
    assert "a link that opens nothing, from 127.0.0.1" in caplog.text
    assert link_path(wedding)[-20:-1] not in caplog.text
    assert "thora" not in caplog.text
