"""A clock that is set wrong, and right again: nobody is shut out for it, and no page falls over."""

import json
import socket
import time
from datetime import UTC, datetime, timedelta
from datetime import time as clock_time

import pytest
from axes.handlers import proxy
from django.conf import settings
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake import guessing
from intake.drafts import MOST_SHEETS, Sheet, put, sheet_for, sheets_of
from intake.links import link_path
from intake.models import StepState
from planning.erasing import erase
from planning.models import GivenEntry
from planning.season_calendar import wedding_calendar
from planning.serving import Steady, make_server
from studio import sessions
from tests.server import free_port
from tests.test_access import ONLY_WRITES, TABLE, addresses, visitors

assert visitors  # a fixture
RIGHT = datetime(2027, 3, 1, 12, tzinfo=UTC)
LONG_AGO, FAR_AHEAD = datetime(1970, 1, 1, 0, 5, tzinfo=UTC), datetime(2037, 3, 1, tzinfo=UTC)
PASSWORD = "three pale birds at noon"


@pytest.fixture
def at(monkeypatch):
    """Sets the clocks that the program reads."""

    def set_clock(moment):
        for module in (timezone, proxy):
            monkeypatch.setattr(module, "now", lambda: moment)
        monkeypatch.setattr(time, "time", moment.timestamp)

    set_clock(RIGHT)
    return set_clock


@pytest.mark.parametrize("moment", [LONG_AGO, datetime(2000, 1, 1, tzinfo=UTC), FAR_AHEAD])
@pytest.mark.parametrize("name", [name for name in TABLE if name not in ONLY_WRITES])
def test_every_page_answers_whatever_the_clock_says(name, moment, wedding, visitors, at):
    found = addresses(name, wedding)
    at(moment)
    _stranger, couple, _other, owner, *_rest = visitors
    for address in found:
        for client in (couple, owner):
            assert client.get(address).status_code < 500


def test_the_draft_that_was_typed_last_is_the_newest(wedding, at):
    step = {"wedding": wedding, "slug": "couple"}
    for number in range(MOST_SHEETS):
        typed = {"n": [str(number)]}
        put(wedding, "couple", Sheet(f"old{number}", typed, "a", 1, RIGHT.isoformat()), "")
    last = Sheet("last", {"n": ["typed last"]}, "b", 1, LONG_AGO.isoformat())
    put(wedding, "couple", last, "")
    assert sheet_for(sheets_of(StepState.objects.get(**step)), "c").key == "last"
    put(wedding, "couple", Sheet("next", {"n": ["9"]}, "a", 1, LONG_AGO.isoformat()), "")
    kept = [sheet.key for sheet in sheets_of(StepState.objects.get(**step))]
    assert kept[:2] == ["next", "last"]  # and not the first to go where there are too many
    assert len(kept) == MOST_SHEETS


def sign_in(typed):
    return Client().post(reverse("login"), {"username": "tansy", "password": typed}).status_code


def is_locked_out(django_user_model):
    django_user_model.objects.create_user("tansy", password=PASSWORD)
    for number in range(settings.AXES_FAILURE_LIMIT):
        sign_in(f"guess {number}")
    return sign_in(PASSWORD) == 429


def test_a_lockout_of_a_year_to_come_is_over_when_the_clock_is_right(db, django_user_model, at):
    at(FAR_AHEAD)
    assert is_locked_out(django_user_model)
    at(RIGHT)
    assert sign_in("one more guess") == 200  # counted from one again
    assert sign_in(PASSWORD) == 302


def test_a_lockout_of_now_holds(db, django_user_model, at):
    assert is_locked_out(django_user_model)
    at(RIGHT - timedelta(minutes=5))  # another server's clock
    assert sign_in(PASSWORD) == 429
    at(RIGHT + timedelta(minutes=16))
    assert sign_in(PASSWORD) == 302


def test_ten_minutes_of_waiting_for_a_link_are_ten_minutes(wedding, at, monkeypatch):
    at(FAR_AHEAD)
    for _ in range(guessing.MISSES):
        Client().get(f"/q/{wedding.public_id}/wrong")
    assert Client().get(link_path(wedding)).status_code == 429
    at(RIGHT)
    now = time.monotonic()
    monkeypatch.setattr(time, "monotonic", lambda: now + guessing.SECONDS + 1)
    assert Client().get(link_path(wedding)).status_code == 302


def test_a_sign_in_made_in_a_year_to_come_lasts_thirty_days_from_when_it_is_right(
    client, django_user_model, at
):
    at(FAR_AHEAD)
    client.force_login(django_user_model.objects.create_superuser("marigold"))
    assert client.get(reverse("season")).status_code == 200
    for day in range(30):
        at(RIGHT + timedelta(days=day))
        assert client.get(reverse("season")).status_code == 200
    at(RIGHT + timedelta(seconds=sessions.LONGEST + 60))
    assert client.get(reverse("season")).status_code == 302


def test_a_couple_that_came_in_before_the_clock_was_right_gives_their_words(wedding, at):
    """As on a laptop without a battery. What the page could not send it keeps in the browser."""
    at(LONG_AGO)
    couple = Client()
    couple.get(link_path(wedding))
    page = reverse("step", args=[wedding.public_id, "care"])
    sent = {"sheet": "one", "turn": "1", "do": "draft"}
    assert json.loads(couple.post(page, sent).content) == {"draft": False}
    at(RIGHT)
    assert couple.post(page, sent).status_code == 404
    couple.get(link_path(wedding))
    assert couple.post(page, sent).status_code == 200


def test_a_change_in_a_calendar_comes_after_what_was_told_before(timed, at):
    """For readers who go by its time, and not by its number."""
    wedding_calendar(timed)
    before = GivenEntry.objects.in_bulk()
    timed.moments.filter(key="vows").update(at=clock_time(13))
    timed.moments.filter(key="reel").delete()
    at(LONG_AGO)
    wedding_calendar(timed)
    after = GivenEntry.objects.in_bulk(before)
    changed = [row for pk, row in after.items() if row.sequence > before[pk].sequence]
    assert {row.cancelled for row in changed} == {True, False}
    assert all(row.changed_at > before[row.pk].changed_at for row in changed)
    told = {row.pk: row.changed_at for row in after.values()}
    erase(timed)
    erased = list(GivenEntry.objects.filter(pk__in=told, sequence__gt=1))
    assert erased
    assert all(row.changed_at > told[row.pk] for row in erased)


@pytest.mark.parametrize("moment", [LONG_AGO, FAR_AHEAD])
def test_the_server_closes_what_nobody_uses_and_nothing_else(at, moment, monkeypatch):
    server = make_server(host="127.0.0.1", port=free_port(), _start=False)
    try:
        server.accept_connections()
        with socket.create_connection(server.socket.getsockname()):
            server.handle_accept()
            (channel,) = server.active_channels.values()
            at(moment)
            server.readable()
            assert not channel.will_close
            now = time.monotonic()
            monkeypatch.setattr(Steady, "time", lambda: now + server.adj.channel_timeout + 60)
            server.readable()
            assert channel.will_close
            channel.handle_close()
    finally:
        server.task_dispatcher.shutdown()
        server.close()
