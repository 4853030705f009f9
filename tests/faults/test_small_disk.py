"""The one disk is full, or takes nothing any more: database, pictures, temporary files and log.

For real, on a tmpfs of its own (small_disk.py), while couples type at the real server. What it
acknowledged is there, what it could not keep stays in the page that says so, and it goes on by
itself when there is room.
"""

import os
import shlex
import sqlite3
import sys
import time
import zipfile
from contextlib import ExitStack, contextmanager

import pytest
from PIL import Image

from tests.planning.backup.places import refused, sqlite, told
from tests.sent_files import as_bytes
from tests.server import free_port, manage, running

from .couple import Couple
from .couples import MAKE, assert_nothing_is_missing, typists_at, wait_for_an_answer
from .look import as_if_nothing_was_typed, look
from .small_disk import small_disk
from .typist import at_work

pytestmark = [
    pytest.mark.xdist_group("small disk"),
    pytest.mark.skipif("DATABASE_URL" in os.environ, reason="the run on SQLite has it"),
]
FULL = "The disk is full where the answers are kept."
READ_ONLY = "The disk where the answers are kept takes nothing new."
STILL = "Your words are still here."
LONG = ("Grandma walks with a stick; " * 70).strip()


class Place:
    """A server with its data on one small disk, its log and its temporary files on another."""

    def __init__(self, disk, other):
        self.disk, self.other, self.log = disk, other, other.folder / "log"
        own = {"TMPDIR": str(other.folder), "FOREDAY_LOG": "json"}
        self.environment = sqlite(disk.folder, **own)
        manage(self.environment, "migrate", "-v0")
        self.links = manage(self.environment, "shell", "--no-imports", "-c", MAKE).split()

    def serving(self):
        port = free_port()
        command = [sys.executable, "manage.py", "serve", "--listen", f"127.0.0.1:{port}"]
        line = f"exec {shlex.join(command)} >>{shlex.quote(str(self.log))} 2>&1"
        self.site = f"http://127.0.0.1:{port}"
        return running(["sh", "-c", line], port, self.environment)

    @contextmanager
    def full(self):
        with self.disk.full(), self.other.full():
            yield

    @contextmanager
    def read_only(self):
        with self.disk.read_only():
            yield

    def pictures(self):
        return set((self.disk.folder / "pictures").rglob("*.jpg"))


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    with ExitStack() as stack:
        folders = (tmp_path_factory.mktemp("disk"), tmp_path_factory.mktemp("other"))
        place = Place(*(stack.enter_context(small_disk(folder)) for folder in folders))
        stack.enter_context(place.serving())
        yield place


@pytest.mark.parametrize(("trouble", "words"), [("full", FULL), ("read_only", READ_ONLY)])
def test_what_could_not_be_kept_is_still_in_the_page_and_is_kept_when_it_can_be(
    here, trouble, words
):
    couple = Couple(here.site, here.links[0])
    typed = couple.open("care").fields | {"wedding-anything_else": f"{trouble} {LONG}"}
    with getattr(here, trouble)():
        answer = couple.keep("care", typed)
        assert answer.status == 503
        assert words in answer.says
        assert STILL in answer.says
        assert answer.fields["wedding-anything_else"] == [f"{trouble} {LONG}"]
        assert couple.open("care").status in (200, 503)
    assert couple.keep("care", answer.fields).status == 200
    assert couple.open("care").fields["wedding-anything_else"] == [f"{trouble} {LONG}"]


@pytest.mark.parametrize("trouble", ["full", "read_only"])
def test_those_who_type_all_the_while_lose_nothing_that_was_acknowledged(here, trouble):
    as_if_nothing_was_typed(here.environment)
    typists = typists_at(here.links, [here.site])
    with at_work(typists):
        wait_for_an_answer(typists)
        with getattr(here, trouble)():
            before = sum(typist.refused for typist in typists)
            until = time.monotonic() + 30
            while sum(typist.refused for typist in typists) < before + 8:
                assert time.monotonic() < until, "nobody was told"
                time.sleep(0.01)
        wait_for_an_answer(typists)
    heard = {typist.name: typist.heard for typist in typists}
    assert_nothing_is_missing(typists, heard, look(here.environment))


def picture(edge):
    """A JPEG of noise, which does not pack."""
    return as_bytes(Image.effect_noise((edge, edge), 90), "JPEG", quality=95)


@pytest.mark.parametrize("content", [picture(300), picture(1400)], ids=["small", "large"])
def test_a_picture_that_has_no_room_is_told_and_leaves_nothing_behind(here, content):
    couple = Couple(here.site, here.links[0])
    page = couple.open("pictures")
    before = here.pictures()
    with here.disk.full():
        answer = couple.send("pictures", page.fields, content)
        assert answer.status == 503
        assert "could not be kept" in answer.says
    assert here.pictures() == before
    assert couple.send("pictures", page.fields, content).status == 200
    assert len(here.pictures() - before) == 2


def test_a_picture_that_has_no_room_on_its_way_in_is_told(here):
    couple = Couple(here.site, here.links[0])
    page = couple.open("pictures")
    assert couple.send("pictures", page.fields, picture(1500)).status == 200  # TMPDIR is chosen
    with here.other.full():
        refused = couple.send("pictures", page.fields, picture(1501))
    assert refused.status == 503
    assert b"send it again later" in refused.content
    assert couple.send("pictures", page.fields, picture(1501)).status == 200


def test_a_paper_is_drawn_all_the_same(here):
    couple = Couple(here.site, here.links[0])
    with here.full():
        answer = couple.ask(f"{couple.page.removesuffix('step/')}words.pdf")
    assert answer.status == 200
    assert answer.content.startswith(b"%PDF-")


def test_a_backup_without_room_says_so_and_leaves_the_one_before(here):
    out = here.disk.folder / "foreday.zip"
    told(here.environment, "backup", out)
    before = out.read_bytes()
    with here.full():
        assert "disk is full" in refused(here.environment, "backup", out)
    assert out.read_bytes() == before
    assert not [path for path in here.disk.folder.iterdir() if path.name.startswith(".")]


def test_the_log_goes_on_when_there_is_room(here):
    couple = Couple(here.site, here.links[0])
    with here.full():
        assert couple.open("care").status == 200
        full = here.log.stat().st_size
    couple.open("care")
    assert here.log.stat().st_size > full


def test_the_database_is_whole_after_all_that(here):
    file = here.disk.folder / "foreday.sqlite3"
    with sqlite3.connect(file) as database:
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    database.close()


def test_a_server_starts_on_a_full_disk(here):
    with here.full(), here.serving():
        assert Couple(here.site, here.links[0]).open("care").status == 200


def test_an_update_without_room_changes_nothing(here):
    told(here.environment, "migrate", "planning", "0018", "--skip-backup")
    with here.full():
        line = refused(here.environment, "migrate")
    assert "Nothing was migrated" in line
    assert "disk is full" in line
    told(here.environment, "migrate")
    (kept,) = (here.disk.folder / "backups").iterdir()
    with zipfile.ZipFile(kept) as archive:
        assert archive.testzip() is None


def test_on_a_disk_that_takes_nothing_a_command_says_so_in_one_line(tmp_path):
    with small_disk(tmp_path) as disk:
        environment = sqlite(tmp_path)
        manage(environment, "migrate", "-v0")
        with disk.read_only():
            for command in (["serve", "--listen", f"127.0.0.1:{free_port()}"], ["migrate"]):
                assert "Read-only file system" in refused(environment, *command)
