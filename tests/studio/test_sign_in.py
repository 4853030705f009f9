"""Whoever guesses at passwords is one person at all addresses of theirs, and slows nobody down."""

import pytest
from axes.models import AccessAttempt
from django.conf import settings
from django.test import Client, RequestFactory
from django.urls import reverse

from studio.asker import asker
from studio.password_views import READING
from tests.conftest import owner
from tests.page import said

HOME, NEIGHBOUR = "2001:db8:1:2::", "2001:db8:1:3::1"


def try_one(address, typed="a guess"):
    typed = {"username": "marigold", "password": typed}
    return Client(REMOTE_ADDR=address).post(reverse("login"), typed)


@pytest.mark.parametrize(
    ("address", "counted"),
    [
        ("203.0.113.9", "203.0.113.9"),
        ("::ffff:203.0.113.9", "203.0.113.9"),
        ("2001:db8:1:2:aaaa:bbbb:cccc:dddd", HOME),
        (NEIGHBOUR, "2001:db8:1:3::"),
        ("::1", "::"),
        ("", ""),
    ],
)
def test_of_an_ipv6_address_the_home_counts(address, counted):
    """RFC 6177: a home has 64 bits for itself, and every address in them."""
    assert asker(RequestFactory(REMOTE_ADDR=address).get("/")) == counted


def test_the_next_address_of_ones_own_home_is_no_new_guesser(django_user_model):
    owner(django_user_model)
    answers = [try_one(f"{HOME}{number:x}") for number in range(1, settings.AXES_FAILURE_LIMIT + 2)]
    assert [answer.status_code for answer in answers][-1] == 429
    assert try_one(NEIGHBOUR).status_code == 200


def test_one_address_has_one_password_read_at_a_time_and_the_name_stays(django_user_model):
    owner(django_user_model)
    with READING.one("203.0.113.9"):
        busy = try_one("203.0.113.9", "three pale birds at noon")
        assert busy.status_code == 429
        assert "Try again in a few seconds" in said(busy)
        assert 'value="marigold"' in busy.content.decode()
        assert "three pale birds" not in busy.content.decode()
        assert try_one("198.51.100.4").status_code == 200
    assert try_one("203.0.113.9").status_code == 200


def test_a_name_longer_than_any_account_has_is_not_written_down(db):
    answer = Client().post(reverse("login"), {"username": "x" * 151, "password": "a guess"})
    assert "do not go together" in said(answer)
    assert not AccessAttempt.objects.exists()


def test_whoever_is_in_and_is_to_be_sent_to_the_sign_in_comes_to_the_season(photographer):
    answer = photographer.get(reverse("login"), {"next": reverse("login")})
    assert answer.url == reverse("season")
