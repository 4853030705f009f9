"""kill -9 while a backup is made or put back: what was there is there, or all of what comes.

Each command runs once undisturbed; then it is killed at moments drawn evenly from that length of
time, looked at, and run again, which must end well. A few kills in the normal run; many by

    uv run pytest -m large -n0 -s tests/faults/test_killed_commands.py
    .ci/with-postgres uv run pytest -m large -n0 -s tests/faults/test_killed_commands.py

The seed of the moments is printed; FOREDAY_SEED=N takes another's.
"""

import os
import shutil
import time
from contextlib import contextmanager
from functools import partial

import pytest

from .couples import moments
from .places import inside, place_in

pytestmark = pytest.mark.xdist_group("killed_commands")
FEW, MANY = 2, 10 if os.environ.get("DATABASE_URL") else 20
# What was here before: three weddings fewer, other words, and a picture that the backup has not.
BEFORE = """
from django.core.files.base import ContentFile
from intake.models import Picture, Place, Wedding
from intake.store import store
from planning.erasing import erase
for wedding in Wedding.objects.order_by("pk")[:3]:
    erase(wedding)
Place.objects.update(name="Heron House")
wedding = Wedding.objects.create(public_id="only-here")
for n in "ab":
    file, small = (f"only-here/{(n + size) * 16}.jpg" for size in "01")
    for name in (file, small):
        store().save(name, ContentFile(name.encode() * 9000))
    Picture.objects.create(
        wedding=wedding, key=n, file=file, small=small, width=60, height=40, digest=n
    )
"""
FIRST = ("intake", "0001")
MANY_WEDDINGS = (
    "from django.db import connection as c\n"
    "from django.db.migrations.loader import MigrationLoader as L\n"
    "apps = L(c).project_state([n for n in L(c).applied_migrations if n[0]]).apps\n"
    "W = apps.get_model('intake', 'Wedding')\n"
    "W.objects.bulk_create(W(public_id=f'w{i}', matters='Oma ' * i) for i in range(300))\n"
)


@pytest.fixture(scope="module")
def season(tmp_path_factory):
    """A demo's season in a place of its own, and a backup of it."""
    with place_in(tmp_path_factory.mktemp("season")) as here:
        here.commands.run("demo", "--no-serve")
        here.commands.run("backup", here.states / "season.zip")
        yield here, here.states / "season.zip"


@pytest.fixture(scope="module")
def target(season, tmp_path_factory):
    """Another place, kept as it was when it was empty, and with other weddings in it."""
    with place_in(tmp_path_factory.mktemp("target")) as there:
        there.keep("empty")
        there.commands.run("restore", season[1])
        there.commands.run("shell", "--no-imports", "-c", BEFORE)
        there.keep("before")
        yield there


@contextmanager
def kills_of(commands, capsys, count, *words):
    """Gives a way through moments, evenly spread, at each of which a call kills the command.

    The place must be in the state in which the command is to find it. At the end it is told how
    many kills came before the command had ended: all, but where the machine has less to do since.
    A kill that comes too late tells how long it takes now, and where most did there are some more.
    """
    rng, seed = moments()
    began, hits = time.monotonic(), []
    long = commands.run(*words)

    def kill(part):
        nonlocal long
        hits.append(commands.kill(long * part, *words))
        if not hits[-1]:
            long = min(long, commands.took)

    def kills():
        for turn in range(count):
            yield partial(kill, (turn + rng.random()) / count)
        while sum(hits) < count / 3 and len(hits) < 3 * count:
            yield partial(kill, rng.random())

    yield kills()
    with capsys.disabled():
        print(
            f"\n{words[0]}, {long:.2f} s undisturbed: {len(hits)} kills, {sum(hits)} before its "
            f"end, seed {seed}; {time.monotonic() - began:.0f} s"
        )
    assert sum(hits) >= count / 3


def assert_backup_is(archive, wanted, folder):
    rows, pictures = inside(archive, folder)
    assert (rows, pictures) == wanted


def check_backup(season, tmp_path, capsys, count):
    here, archive = season
    out, before = tmp_path / "out.zip", (here.rows(), here.pictures(), here.key())
    whole, older = inside(archive, tmp_path), tmp_path / "older.zip"
    with place_in(tmp_path) as empty:
        empty.commands.run("backup", older)
    with kills_of(here.commands, capsys, count, "backup", out) as kills:
        for number, kill in enumerate(kills):
            there_was_one = number % 2
            out.unlink(missing_ok=True)
            if there_was_one:
                shutil.copy(older, out)
            kill()
            assert (here.rows(), here.pictures(), here.key()) == before
            if there_was_one and out.read_bytes() == older.read_bytes():
                pass
            elif there_was_one or out.exists():
                assert_backup_is(out, whole, tmp_path)
            here.commands.run("backup", out)
            assert_backup_is(out, whole, tmp_path)
            assert here.left_over() == []
            beside = {path.name for path in tmp_path.iterdir() if path.name.startswith(".")}
            assert not beside, "what a killed backup left behind is still there"


def is_done(target, wanted):
    done = (target.rows(), target.pictures(), target.key()) == wanted
    return done and target.left_over() == []


def check_restore(season, target, tmp_path, capsys, count, state):
    here, archive = season
    wanted = (here.rows(), here.pictures(), here.key())
    target.put_back(state)
    before, pictures = target.rows(), target.pictures()
    words = ("restore", archive, *(["--replace"] if state == "before" else []))
    with kills_of(target.commands, capsys, count, *words) as kills:
        for kill in kills:
            target.put_back(state)
            kill()
            found = target.rows()
            weddings = found.get("intake_wedding")
            if weddings and weddings != before.get("intake_wedding"):
                assert found == wanted[0]
                assert target.pictures().items() >= wanted[1].items()
            else:
                assert state == "empty" or found == before
                assert target.pictures().items() >= pictures.items()
            if state == "empty" and is_done(target, wanted):
                continue  # killed when nothing was left to do, and nothing is to be put there
            target.commands.run(*words)
            assert is_done(target, wanted)


def check_migrate(tmp_path, capsys, count):
    with place_in(tmp_path) as here:
        here.commands.run("migrate", *FIRST)
        here.commands.run("shell", "--no-imports", "-c", MANY_WEDDINGS)
        here.keep("first")
        before = here.rows()
        here.commands.run("backup", tmp_path / "first.zip")
        whole = inside(tmp_path / "first.zip", tmp_path)
        with kills_of(here.commands, capsys, count, "migrate") as kills:
            for kill in kills:
                here.put_back("first")
                kill()
                found = here.rows()  # when PostgreSQL has heard, too, that nobody asks any more
                assert here.own_backups() or found == before
                for archive in here.own_backups():
                    assert_backup_is(archive, whole, tmp_path)
                here.commands.run("migrate")
                here.commands.run("migrate", "--check")
                assert len(here.rows()["intake_wedding"]) == 300
                assert here.own_backups()
                assert here.left_over() == []


def test_a_backup_that_is_killed_leaves_the_older_one_and_the_next_is_whole(
    season, tmp_path, capsys
):
    check_backup(season, tmp_path, capsys, FEW)


@pytest.mark.parametrize("state", ["empty", "before"])
def test_a_restore_that_is_killed_leaves_what_was_or_brings_all(
    season, target, tmp_path, capsys, state
):
    check_restore(season, target, tmp_path, capsys, FEW, state)


def test_a_migration_that_is_killed_has_its_backup_or_has_changed_nothing(tmp_path, capsys):
    check_migrate(tmp_path, capsys, FEW)


@pytest.mark.large
@pytest.mark.timeout(1200)
def test_many_backups_that_are_killed(season, tmp_path, capsys):
    check_backup(season, tmp_path, capsys, MANY)


@pytest.mark.large
@pytest.mark.timeout(1200)
@pytest.mark.parametrize("state", ["empty", "before"])
def test_many_restores_that_are_killed(season, target, tmp_path, capsys, state):
    check_restore(season, target, tmp_path, capsys, MANY, state)


@pytest.mark.large
@pytest.mark.timeout(1200)
def test_many_migrations_that_are_killed(tmp_path, capsys):
    check_migrate(tmp_path, capsys, MANY)
