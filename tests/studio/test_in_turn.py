"""Two clicks at one moment, on PostgreSQL, where a transaction waits for no other by itself."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.contrib.auth import get_user_model
from django.db import connection, connections
from django.test import Client
from django.test.utils import CaptureQueriesContext

from intake.models import Wedding
from planning.models import KitItem
from tests.conftest import owner
from tests.page import Page

PATIENCE = 30  # seconds
on_postgres = pytest.mark.skipif(
    connection.vendor != "postgresql", reason="SQLite lets one write at a time"
)


def at_one_moment(client, address, sent):
    """Two clicks that both wait until the other is ready."""
    together = Barrier(2)

    def click(_number):
        try:
            together.wait(PATIENCE)
            return client.post(address, sent).status_code
        finally:
            connections.close_all()

    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(click, range(2)))


@pytest.fixture
def desk(transactional_db):
    client = Client()
    client.force_login(owner(get_user_model()))
    client.get("/")
    return client


@on_postgres
def test_a_second_click_makes_no_second_wedding(desk):
    sent = Page(desk.get("/weddings/new")).fields
    sent |= {"first": "Ana", "second": "Bo", "days-0-date": "2027-08-07"}
    assert at_one_moment(desk, "/weddings/new", sent) == [302, 302]
    assert Wedding.objects.count() == 1


@on_postgres
def test_a_second_click_makes_no_second_list_of_kit(desk):
    assert at_one_moment(desk, "/kit", {}) == [302, 302]
    titles = [item.title for item in KitItem.objects.all()]
    assert len(titles) == len(set(titles)) > 5


@on_postgres
@pytest.mark.parametrize(
    ("address", "sent"),
    [
        ("/people", {"username": "tansy", "role": "1"}),
        ("/questions", {"do": "save"}),
        ("/experience", {"do": "save"}),
        ("/kit/new/lens", {}),
        ("/w/thora-lukasz/day", {"do": "usual-order"}),
        ("/w/thora-lukasz/groups", {"do": "minutes"}),
    ],
)
def test_what_photographers_keep_waits_for_what_another_keeps(photographer, wedding, address, sent):
    with CaptureQueriesContext(connection) as asked:
        photographer.post(address, sent)
    assert any("pg_advisory_xact_lock" in each["sql"] for each in asked)
