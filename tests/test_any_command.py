"""Every command with whatever can be typed: an answer, or one line and 2; no traceback.

The words are those of tests/odd_words.py, the promise that of the README: 0 and an answer, which is
JSON where that was asked for, or 2 and one line on standard error in which a terminal finds nothing
to obey; then nothing was written, and what was there before is as it was. What takes minutes or
serves is left out here: that a paper is drawn, figures measured, a season made and a port served
has tests of its own. The same at length, on either database:

    uv run pytest -m large -n 2 tests/test_any_command.py
"""

import os
import socket
from pathlib import Path
from unittest.mock import Mock

import pytest
import waitress
from django.apps import apps
from django.conf import settings as ours
from django.core.management import find_commands, load_command_class
from django.core.management.base import BaseCommand
from django.db import transaction
from django.db.migrations.executor import MigrationExecutor
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from planning.backup import make, restore
from planning.bench import bags, days, groups, light, papers, season
from planning.management.commands import daypack, demo, serve
from tests import odd_backups, odd_json
from tests.command_line import assert_promise, files_in, run
from tests.odd import TEXT
from tests.odd_words import (
    EVERYWHERE,
    OF_DEVELOPERS,
    TABLE,
    WRITES,
    arguments_of,
    lay_out,
    typed,
)

QUICK = settings(
    max_examples=15,
    deadline=None,
    derandomize=True,  # the same every time: a landing is no place for luck
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
NOTES = {"light", "daypack"}  # beside an answer
TELLS_FIRST = {"erase", "retention"}  # what goes, before it asks; what went, before what did not
each_command = pytest.mark.parametrize("name", sorted(TABLE))


def commands():
    """{name: its class} of every command in a folder of the project."""
    return {
        name: load_command_class(app.name, name)
        for app in apps.get_app_configs()
        if Path(app.path).is_relative_to(ours.BASE_DIR) and ".venv" not in app.path
        for name in find_commands(str(Path(app.path) / "management"))
    }


def arguments(parser):
    return {
        action.option_strings[-1] if action.option_strings else action.dest
        for action in parser._actions
    }


def test_every_command_of_the_project_is_tried():
    assert commands().keys() == TABLE.keys()


@each_command
def test_every_argument_of_a_command_is_tried(name):
    taken = arguments(commands()[name].create_parser("manage.py", name))
    of_django = arguments(BaseCommand().create_parser("manage.py", name))
    assert of_django == EVERYWHERE.keys() | OF_DEVELOPERS
    assert taken - of_django == arguments_of(name).keys()


@pytest.fixture
def quick_work(monkeypatch, tmp_path, kept_files, db, django_db_blocker):
    """What takes minutes, serves, or takes the place of the database is done in name only."""
    (tmp_path / "data").mkdir()
    monkeypatch.setattr(ours, "DATA_DIR", tmp_path / "data")
    monkeypatch.setattr(daypack, "paper_pdf", lambda *_: b"%PDF-1.7")
    for measure in (bags, days, groups, papers, season):
        monkeypatch.setattr(measure, "measured", lambda *_: {})
        monkeypatch.setattr(measure, "as_line", lambda *_: "a row")
    for measure in (papers, season):
        monkeypatch.setattr(measure, "measured", lambda *_: [{}])
    monkeypatch.setattr(light, "measured", lambda *_: {})
    monkeypatch.setattr(light, "as_lines", lambda *_: ["a row"])
    for measure in (days, groups):
        monkeypatch.setattr(measure, "works", with_one_list(measure.works))
    monkeypatch.setattr(MigrationExecutor, "migrate", lambda _self, *_, state=None, **__: state)
    monkeypatch.setattr(demo, "make_demo", invented)
    monkeypatch.setattr(serve, "bring_up_to_date", lambda: None)
    monkeypatch.setattr(serve, "run", lambda server: server.close())
    monkeypatch.setattr(waitress, "create_server", without_threads(waitress.create_server))
    monkeypatch.setattr(socket, "getaddrinfo", asking_nobody(socket.getaddrinfo))
    monkeypatch.setattr(make, "_pack", pack_in_name)
    monkeypatch.setattr(restore, "_must_be_ours", lambda _alias: None)  # it was migrated in name
    monkeypatch.setattr(
        restore,
        "_put",
        lambda archive, _fresh, before: restore.Restored(archive.manifest, 0, before),
    )
    with django_db_blocker.unblock():  # the database inside a backup, too
        yield


def with_one_list(works):
    return lambda _lists, *more: works(1, *more)


def invented(site):
    sign_in = {"url": site, "username": "ada", "password": "none"}
    return {"sign_in": sign_in, "weddings": [{"date": None, "names": "Þóra", "link": site}]}


def pack_in_name(file, _work, _with_key):
    file.write(odd_backups.WHOLE)
    file.seek(0)
    with make.archive.opened(file, "") as written:
        return written.manifest


def without_threads(create):
    def made(*args, **options):
        server = create(*args, _dispatcher=Mock(), **options)
        server.run = server.close
        return server

    return made


def asking_nobody(ask):
    """Names are looked up as far as that needs no network."""

    def asked(host, port, *args, **options):
        own = "127.0.0.1" if host == "localhost" else host
        return ask(own, port, socket.AF_INET, socket.SOCK_STREAM, 0, socket.AI_NUMERICHOST)

    return asked


@pytest.fixture
def there(tmp_path, monkeypatch):
    folder = tmp_path / "there"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def laid_out_anew(folder):
    for path in sorted(folder.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() and not path.is_symlink() else path.unlink()
    lay_out(folder)


def given_files(name, draw):
    """What stands in the files and on standard input for it."""
    if name in ("order", "timeline"):
        example = odd_json.GROUPS if name == "order" else odd_json.DAY
        content = draw(odd_json.files(example))
        Path("list.json").write_bytes(content)
        Path("day.json").write_bytes(content)
        return content, False
    if name == "restore":
        Path("odd.zip").write_bytes(draw(odd_backups.archives()))
    if name in ("backup", "restore"):
        os.mkfifo("pipe")
    if name in ("erase", "retention"):
        answers = st.one_of(TEXT, st.sampled_from(["thora-lukasz", "thora-lukasz\r", "y\n"]))
        typed_in = st.one_of(answers.map(as_bytes), st.sampled_from([b"", b"\xff\n", b"\0"]))
        return draw(typed_in), draw(st.booleans())
    return b"", draw(st.booleans())


def as_bytes(text):
    return text.encode("utf-8", "surrogatepass")


def tried(name, folder, data):
    laid_out_anew(folder)
    words = data.draw(typed(name), label="words")
    stdin, at_terminal = given_files(name, data.draw)
    before, kept = files_in(folder), files_in(ours.DATA_DIR)
    with transaction.atomic():
        ran = run(name, *words, stdin=stdin, at_terminal=at_terminal)
        transaction.set_rollback(True)
    if name == "migrate" and "--check" in words and ran.code == 1:
        return  # Django's own answer: something waits
    asked = "Type thora-lukasz to erase it for good: "
    ran = type(ran)(ran.code, ran.out, ran.err.removeprefix(asked if at_terminal else ""))
    assert_promise(ran, words, name in NOTES, name in TELLS_FIRST)
    after = files_in(folder)
    if ran.code or name not in WRITES:
        assert after == before
    else:
        assert sum(after[path] != before.get(path) for path in after) <= 1
        assert before.keys() <= after.keys()
    if ran.code:
        assert files_in(ours.DATA_DIR) == kept
    return ran


@each_command
@QUICK
@given(data=st.data())
def test_whatever_is_typed_is_answered(name, timed, quick_work, there, data):
    tried(name, there, data)


@pytest.mark.large
@each_command
@settings(QUICK, max_examples=300)
@given(data=st.data())
def test_whatever_is_typed_is_answered_at_length(name, timed, quick_work, there, data):
    tried(name, there, data)


GOOD = {
    "backup": ["new.zip"],
    "bench": ["--only", "season pages"],
    "calendar": ["thora-lukasz", "--out", "new.ics"],
    "daypack": ["thora-lukasz", "--out", "new.pdf"],
    "demo": ["--no-serve"],
    "erase": ["thora-lukasz", "--yes"],
    "light": ["--at", "51.5,-0.12", "--zone", "Europe/London", "--date", "2026-06-20"],
    "migrate": [],
    "order": ["list.json"],
    "restore": ["season.zip", "--replace"],
    "retention": ["--erase"],
    "serve": ["--listen", "127.0.0.1:18768"],
    "timeline": ["day.json"],
}


@each_command
def test_a_command_is_reached_with_words_that_are_good(name, timed, quick_work, there):
    """Or what is tried above would be tried on a refusal."""
    laid_out_anew(there)
    ran = run(name, *GOOD[name])
    assert ran.code == 0, ran
