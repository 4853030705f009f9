"""How long a sign-in lasts, what the log says of it, and that no page is kept by a browser."""

import io
import logging
import time
from datetime import timedelta

import pytest
from axes.models import AccessAttempt
from django.contrib.auth.models import User
from django.contrib.sessions.models import Session
from django.core.management import call_command
from django.db.models import F
from django.test import Client
from django.urls import reverse

from studio import sessions
from tests.conftest import owner

DAY = 24 * 3600
PASSWORD = "three pale birds at noon"


@pytest.fixture
def clock(monkeypatch):
    """Sets the time that the sessions go by, in seconds from now."""
    now = time.time()
    return lambda later: monkeypatch.setattr(sessions.time, "time", lambda: now + later)


def is_in(client):
    return client.get(reverse("season")).status_code == 200


def test_a_sign_in_that_is_used_every_day_ends_after_thirty_days(photographer, clock):
    for day in range(30):
        clock(day * DAY)
        assert is_in(photographer)
    clock(30 * DAY + 60)
    assert not is_in(photographer)


def test_a_sign_in_that_nobody_uses_ends_after_a_week(photographer):
    assert is_in(photographer)
    assert photographer.session.get_expiry_age() == 7 * DAY
    Session.objects.update(expire_date=F("expire_date") - timedelta(days=7, seconds=1))
    assert not is_in(photographer)


def test_using_it_moves_its_end_at_most_once_an_hour(photographer, clock):
    assert is_in(photographer)
    first = photographer.session["seen"]
    clock(60)
    assert is_in(photographer)
    assert photographer.session["seen"] == first
    clock(2 * 3600)
    assert is_in(photographer)
    assert photographer.session["seen"] > first


@pytest.mark.parametrize("jump", [-400 * DAY, -3600])
def test_a_clock_set_back_signs_nobody_out(photographer, clock, jump):
    assert is_in(photographer)
    clock(jump)
    assert is_in(photographer)


def test_no_page_is_kept_by_a_browser_unless_it_says_so_itself(photographer, wedding):
    for address in ("season", "studio", "people", "password"):
        assert photographer.get(reverse(address))["Cache-Control"] == "private, no-store"
    answers = photographer.get(reverse("answers", args=[wedding.public_id]))
    assert answers["Cache-Control"] == "private, no-store"


def test_signing_out_empties_what_the_browser_keeps(photographer):
    """Clear-Site-Data (W3C), which browsers heed over TLS and on this machine."""
    assert photographer.post(reverse("logout"))["Clear-Site-Data"] == '"cache"'
    assert "Clear-Site-Data" not in photographer.get(reverse("login"))


def test_another_site_that_asks_for_the_way_out_takes_no_kept_day_from_a_phone(django_user_model):
    client = Client(enforce_csrf_checks=True)
    client.force_login(owner(django_user_model))
    for answer in (client.get(reverse("logout")), client.post(reverse("logout"))):
        assert answer.status_code in {403, 405}
        assert "Clear-Site-Data" not in answer
    assert is_in(client)


def test_the_log_names_the_account_and_never_what_was_typed(db, caplog):
    caplog.set_level(logging.INFO, logger="axes")
    User.objects.create_user("tansy", password=PASSWORD)
    for name, password in [("tansy", "a wrong guess"), (PASSWORD, "tansy"), ("tansy", PASSWORD)]:
        Client().post(reverse("login"), {"username": name, "password": password})
    text = caplog.text
    assert "Successful login by account tansy from 127.0.0.1" in text
    assert "login failure by account tansy" in text
    assert "login failure by no account we know" in text
    assert PASSWORD not in text
    assert "a wrong guess" not in text


def test_sign_ins_that_are_over_and_what_was_typed_for_a_name_do_not_lie_about(photographer):
    Client().post(reverse("login"), {"username": PASSWORD, "password": "marigold"})
    assert AccessAttempt.objects.get().username == PASSWORD  # into the wrong box
    sessions.forget_old()
    assert AccessAttempt.objects.exists()  # it still counts
    assert Session.objects.exists()
    AccessAttempt.objects.update(attempt_time=F("attempt_time") - timedelta(minutes=16))
    Session.objects.update(expire_date=F("expire_date") - timedelta(days=8))
    call_command("retention", erase=True, stdout=io.StringIO())
    assert not AccessAttempt.objects.exists()
    assert not Session.objects.exists()
