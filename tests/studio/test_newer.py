"""A program that was put back to an earlier version, on a database that has gone on."""

from contextlib import contextmanager

import pytest
from django.db import connection
from django.db.migrations.recorder import MigrationRecorder
from django.test import Client
from django.urls import reverse

from tests.page import Page, fields, said
from tests.planning.backup.places import place, refused, told
from tests.server import free_port

TOMORROW = ("planning", "9999_tomorrow")
WORDS = "A newer Foreday was here (1 migrations). Update this one."
RECORD = (
    "from django.db import connection as c; "
    "from django.db.migrations.recorder import MigrationRecorder as R; "
    f"R(c).record_applied{TOMORROW}"
)


@contextmanager
def gone_on(table, column):
    """What a newer version could have made of the database: a column has another name."""
    recorder = MigrationRecorder(connection)
    recorder.record_applied(*TOMORROW)
    called(table, column, f"{column}_tomorrow")
    yield
    called(table, f"{column}_tomorrow", column)
    recorder.record_unapplied(*TOMORROW)


def called(table, was, now):
    with connection.cursor() as cursor:
        cursor.execute(f"ALTER TABLE {table} RENAME COLUMN {was} TO {now}")


def test_what_was_typed_stays_in_the_page_that_says_so(transactional_db, wedding, couple):
    page = reverse("step", args=[wedding.public_id, "care"])
    typed = fields(couple, page) | {"wedding-anything_else": "Oma sits", "do": "save"}
    couple.raise_request_exception = False
    with gone_on("intake_wedding", "matters"):
        answer = couple.post(page, typed)
    assert answer.status_code == 503
    assert "A newer version of this program has been here" in said(answer)
    assert Page(answer).fields["wedding-anything_else"] == ["Oma sits"]


def test_whatever_watches_the_server_hears_of_it(db, caplog):
    MigrationRecorder(connection).record_applied(*TOMORROW)
    assert Client().get("/health").status_code == 503
    assert "migrations of a newer version: 1" in caplog.text


def test_what_a_library_put_together_anew_is_no_newer_program(db):
    MigrationRecorder(connection).record_applied("auth", "0001_squashed")
    assert Client().get("/health").status_code == 200


@pytest.mark.parametrize(
    "command",
    [
        ["migrate"],
        ["migrate", "--skip-backup"],
        ["serve", "--listen", f"127.0.0.1:{free_port()}"],
        ["demo", "--no-serve"],
        ["backup", "b.zip"],
    ],
    ids=lambda command: command[0],
)
@pytest.mark.xdist_group("newer")
def test_nothing_is_done_to_it_and_one_line_says_why(newer_place, command):
    there = set(newer_place[0].rglob("*"))
    assert refused(newer_place[1], *command).endswith(WORDS)
    assert set(newer_place[0].rglob("*")) == there


@pytest.fixture(scope="module")
def newer_place(tmp_path_factory):
    folder = tmp_path_factory.mktemp("newer")
    environment = place(folder)
    told(environment, "migrate", "-v0")
    told(environment, "shell", "--no-imports", "-c", RECORD)
    return folder, environment
