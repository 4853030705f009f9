"""A full disk or one that takes nothing: said plainly, and what was typed goes once more."""

import errno
from contextlib import contextmanager
from types import SimpleNamespace

import psycopg
import pytest
from django.db import DatabaseError, DataError, IntegrityError, OperationalError, connection
from django.db.utils import DatabaseErrorWrapper
from django.urls import reverse

from studio import trouble
from studio.trouble import BUSY, FULL, GONE, READ_ONLY, WAITS, kind_of
from tests.page import Page, fields, said

on_sqlite = pytest.mark.skipif(connection.vendor != "sqlite", reason="asks SQLite")
LONG = ("Grandma walks with a stick; " * 170).strip()
CALM = {"en-gb": "Your words are still here.", "de": "Eure Worte sind noch hier."}
CALM |= {"fr": "Ce que vous avez écrit est toujours là.", "es": "Lo que escribieron sigue aquí."}
CALM |= {"pl": "Wasze słowa nadal tu są."}


@contextmanager
def pragma(begin, end):
    """SQLite really has no room, or really takes nothing, until the block ends."""
    with connection.cursor() as cursor:
        cursor.execute(begin)
        try:
            yield
        finally:
            cursor.execute(end)


def full():
    with connection.cursor() as cursor:
        cursor.execute("VACUUM")  # no page is free
        pages = cursor.execute("PRAGMA page_count").fetchone()[0]
    return pragma(f"PRAGMA max_page_count={pages}", "PRAGMA max_page_count=1000000")


def takes_nothing():
    return pragma("PRAGMA query_only=1", "PRAGMA query_only=0")


@on_sqlite
@pytest.mark.parametrize("trouble", [full, takes_nothing])
@pytest.mark.parametrize("language", CALM)
def test_what_could_not_be_kept_is_said_and_goes_once_more(
    transactional_db, wedding, couple, trouble, language
):
    wedding.language = language
    wedding.save()
    page = reverse("step", args=[wedding.public_id, "care"])
    typed = fields(couple, page) | {"wedding-anything_else": LONG, "do": "save"}
    couple.raise_request_exception = False
    with trouble():
        answer = couple.post(page, typed)
        assert couple.get(page).status_code == 200  # reading goes on
    assert answer.status_code == 503
    assert answer["Retry-After"]
    assert CALM[language] in said(answer)
    wedding.refresh_from_db()
    assert wedding.anything_else == ""
    again = Page(answer).fields
    assert again["wedding-anything_else"][0] == LONG
    again.pop("csrfmiddlewaretoken", None)
    assert couple.post(page, again).status_code == 302
    wedding.refresh_from_db()
    assert wedding.anything_else.strip() == LONG.strip()


@on_sqlite
@pytest.mark.parametrize(
    ("disk", "words"),
    [
        (OSError(errno.EROFS, "Read-only file system"), "takes nothing new"),
        (OSError(errno.ENOSPC, "No space left on device"), "The disk is full"),
        (None, "does not reply"),
    ],
)
def test_where_sqlite_cannot_say_why_the_disk_is_asked(wedding, couple, monkeypatch, disk, words):
    def fall(*_args):
        raise OperationalError("unable to open database file")

    monkeypatch.setattr(trouble, "refusal", lambda _folder: disk)
    monkeypatch.setattr("intake.views.wedding_for_request", fall)
    couple.raise_request_exception = False
    assert words in said(couple.get(reverse("steps", args=[wedding.public_id])))


@pytest.mark.parametrize(
    ("error", "kind"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), FULL),
        (OSError(errno.EROFS, "Read-only file system"), READ_ONLY),
        (OSError(errno.ENOENT, "No such file"), ""),
        (OperationalError("database or disk is full"), FULL),
        (OperationalError("attempt to write a readonly database"), READ_ONLY),
        (OperationalError("database is locked"), BUSY),
        (OperationalError("no such column: x"), WAITS),
        (OperationalError("the database system is starting up"), GONE),
        (IntegrityError("UNIQUE constraint failed"), ""),
        (DataError("value too long"), ""),
        (ValueError("ours"), ""),
        (None, ""),
    ],
)
def test_a_mistake_of_the_program_is_not_put_on_the_disk(error, kind):
    assert kind_of(error) == kind


@pytest.mark.parametrize(
    ("code", "kind"),
    [
        ("53100", FULL),
        ("25006", READ_ONLY),
        ("53300", BUSY),
        ("55P03", BUSY),
        ("42P01", WAITS),
        ("57P01", GONE),  # it shuts down
        ("23505", ""),  # a row that is there already
    ],
)
def test_postgresql_is_understood_in_any_language(code, kind):
    """As Django gives its errors on (django/db/utils.py), for a server that speaks no English."""
    with pytest.raises(DatabaseError) as failed:
        raise_one(code)
    assert kind_of(failed.value) == kind


def raise_one(code):
    with DatabaseErrorWrapper(SimpleNamespace(Database=psycopg, errors_occurred=False)):
        raise psycopg.errors.lookup(code)("auf dem Gerät geht nichts mehr")


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("connection failed: FATAL:  sorry, too many clients already", BUSY),
        ('connection failed: FATAL:  database "foreday" does not exist', GONE),
        ("connection failed: Connection refused", GONE),
    ],
)
def test_without_a_connection_there_are_only_words(words, kind):
    assert kind_of(OperationalError(words)) == kind
