"""PostgreSQL has no room, takes nothing, is away or has no connection left, while couples type.

For real, on one of the test's own (own_postgres.py). The page says which it was, with all that was
typed in it; nothing acknowledged is lost; and the app goes on by itself, as the same process.
"""

import os
import random
import time
from contextlib import ExitStack, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.server import manage, serving

from .couple import Couple
from .couples import MAKE, assert_nothing_is_missing, typists_at, wait_for_an_answer
from .look import as_if_nothing_was_typed, look
from .own_postgres import own_postgres
from .small_disk import small_disk
from .typist import at_work

pytestmark = [
    pytest.mark.xdist_group("own postgres"),
    pytest.mark.skipif("DATABASE_URL" not in os.environ, reason="the run on PostgreSQL has it"),
]
FULL = "The disk is full where the answers are kept."
AWAY = "The place where the answers are kept does not reply."
STILL = "Your words are still here."
PATIENCE = 60


class Place:
    def __init__(self, stack, data):
        # Not among pytest's own folders, where the account that PostgreSQL runs as has no way.
        home, tables, journal = (Path(stack.enter_context(TemporaryDirectory())) for _ in range(3))
        self.tables = stack.enter_context(small_disk(tables, 32))
        self.journal = stack.enter_context(small_disk(journal, 96))  # before it is used anew
        self.postgres = stack.enter_context(own_postgres(home, tables, journal))
        own = {"FOREDAY_DATA": str(data), "DATABASE_URL": self.postgres.url}
        self.environment = os.environ | own
        manage(self.environment, "migrate", "-v0")
        self.links = manage(self.environment, "shell", "--no-imports", "-c", MAKE).split()
        self.site, _log = stack.enter_context(serving(self.environment))

    @contextmanager
    def journal_full(self):
        """PostgreSQL then ends all that it does, tries to come back, and may give up."""
        with self.journal.full():
            self.postgres.write_until_it_ends()
            yield
        self.postgres.up_again()


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    with ExitStack() as stack:
        yield Place(stack, tmp_path_factory.mktemp("data"))


def page_of_noise():
    """Text that does not pack, so that the table has to grow."""
    return " ".join(f"{random.getrandbits(64):016x}" for _ in range(100))


@pytest.mark.parametrize(
    ("trouble", "words"),
    [
        (lambda here: here.tables.full(), [FULL]),
        (lambda here: here.journal_full(), [FULL, AWAY]),
        (lambda here: here.postgres.down(), [AWAY]),
        (lambda here: here.postgres.crowded(), ["Too many were writing at the same moment."]),
        (lambda here: here.postgres.read_only(), ["The disk where the answers are kept takes"]),
    ],
    ids=["tables full", "journal full", "away", "crowded", "read-only"],
)
def test_what_was_typed_is_kept_in_the_page_and_then_in_the_database(here, trouble, words):
    as_if_nothing_was_typed(here.environment)
    couple, typists = Couple(here.site, here.links[0]), typists_at(here.links, [here.site])
    typed = couple.open("care").fields
    with at_work(typists):
        wait_for_an_answer(typists)
        with trouble(here):
            answer, text = refused_at_last(couple, typed)
            assert any(each in answer.says for each in words), answer.says
            assert answer.fields["wedding-anything_else"] == [text]
        kept_at_last(couple, answer.fields)
        wait_for_an_answer(typists)
    assert couple.open("care").fields["wedding-anything_else"] == [text]
    heard = {typist.name: typist.heard for typist in typists}
    assert_nothing_is_missing(typists, heard, look(here.environment))


def refused_at_last(couple, typed):
    """There may be some room in the table's pages, or what is kept has no way back to its page."""
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        text = page_of_noise()
        answer = couple.keep("care", typed | {"wedding-anything_else": text})
        assert answer.status in (200, 503)
        if STILL in answer.says:
            return answer, text
    raise AssertionError("everything was kept")


def kept_at_last(couple, fields):
    """The button is pressed until it is kept: PostgreSQL takes a moment to come back."""
    until = time.monotonic() + PATIENCE
    while (status := couple.keep("care", fields).status) != 200:
        assert status == 503
        assert time.monotonic() < until, "it does not go on"
        time.sleep(0.2)
