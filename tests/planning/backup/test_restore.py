"""What a backup is for: all of it comes back, to the byte, into an empty place."""

import contextlib
import json
import os
import sqlite3
import zipfile
from base64 import b64decode
from pathlib import Path

import pytest

from planning.backup.archive import Manifest, Packer

from .places import look, place, refused, run, told

pytestmark = pytest.mark.xdist_group("backup")  # the places are made once
WEDDING = "demo-orchard-barn"  # has pictures
PAIRS = [("here", "here")]
if os.environ.get("DATABASE_URL"):
    PAIRS += [("sqlite", "here"), ("here", "sqlite")]
# Somebody signs in, and a place is called otherwise than in the backup.
LATER = (
    "from importlib import import_module; from django.conf import settings\n"
    "s = import_module(settings.SESSION_ENGINE).SessionStore(); s['a'] = 1; s.save()\n"
    "from intake.models import Place; Place.objects.update(name='Heron House')\n"
    "print(s.session_key)"
)


@pytest.fixture(scope="module", params=sorted({source for source, _target in PAIRS}))
def source(request, tmp_path_factory):
    """A place with the demo's season, a backup of it, and on which database it is."""
    folder = tmp_path_factory.mktemp("source")
    here = place(folder, request.param)
    told(here, "demo", "--no-serve")
    told(here, "backup", folder / "foreday.zip")
    return here, folder / "foreday.zip", request.param


@pytest.fixture(scope="module")
def seen(source):
    return look(source[0], WEDDING)


@pytest.fixture(scope="module", params=sorted({target for _source, target in PAIRS}))
def restored(request, source, tmp_path_factory):
    """The same in another place that was empty."""
    _here, archive, kind = source
    if (kind, request.param) not in PAIRS:
        pytest.skip("the run on SQLite has it")
    there = place(tmp_path_factory.mktemp("target"), request.param)
    told(there, "restore", archive)
    return there


@pytest.fixture(scope="module")
def seen_again(restored):
    return look(restored, WEDDING)


def content(archive, tmp_path):
    """The database in an archive."""
    with zipfile.ZipFile(archive) as file:
        (tmp_path / "d.sqlite3").write_bytes(file.read("database.sqlite3"))
    return sqlite3.connect(tmp_path / "d.sqlite3")


def test_the_day_pack_is_the_same_byte_for_byte(seen, seen_again):
    pack = b64decode(seen["pack"])
    assert len(pack) > 100_000
    assert b"/Image" in pack
    assert b64decode(seen_again["pack"]) == pack


def test_couples_links_open_as_before(seen, seen_again):
    assert len(seen["links"]) == 6
    assert seen_again["links"] == seen["links"]


def test_every_row_is_the_same(seen, seen_again):
    assert len(seen["rows"]) > 400
    assert seen_again["rows"] == seen["rows"]


def test_pictures_and_key_are_their_owners_alone(restored):
    folder = Path(restored["FOREDAY_DATA"])
    pictures = [path for path in (folder / "pictures").rglob("*") if path.is_file()]
    assert len(pictures) == 12
    for path in [*pictures, folder / "secret_key"]:
        assert path.stat().st_mode & 0o777 == 0o600


def test_a_backup_is_one_whole_private_file_and_nothing_beside_it(source):
    _here, archive, _kind = source
    assert archive.stat().st_mode & 0o777 == 0o600
    assert not [p for p in archive.parent.iterdir() if p.name.startswith(".")]


def test_a_place_that_is_not_empty_is_left_alone_unless_told(source, restored, tmp_path):
    """What was there is kept; who is signed in is neither kept nor put back."""
    _here, archive, _kind = source
    session = told(restored, "shell", "--no-imports", "-c", LATER).strip()
    line = refused(restored, "restore", archive)
    assert "weddings: 6" in line
    assert "--replace" in line
    report = json.loads(told(restored, "restore", archive, "--replace", "--json"))
    assert (report["weddings"], report["links_open"]) == (6, True)
    before = Path(report["before"])
    assert before.stat().st_mode & 0o777 == 0o600
    database = content(before, tmp_path)
    named = database.execute("SELECT DISTINCT name FROM intake_place").fetchall()
    database.close()
    assert named == [("Heron House",)]
    assert session.encode() not in (tmp_path / "d.sqlite3").read_bytes()
    # New rows find free keys, which PostgreSQL counts apart from its rows.
    code = (
        "from intake.models import Place, Wedding; w = Wedding.objects.create()\n"
        "print(Place.objects.filter(name='Heron House').count())"
    )
    assert told(restored, "shell", "--no-imports", "-c", code).strip() == "0"


def test_without_its_key_a_backup_says_so_and_so_does_what_is_put_back(source, tmp_path):
    here, _archive, _kind = source
    assert "Without the secret key" in told(here, "backup", tmp_path / "b.zip", "--without-key")
    with zipfile.ZipFile(tmp_path / "b.zip") as archive:
        assert "secret_key" not in archive.namelist()
    there = place(tmp_path / "there", "sqlite")
    assert "send new links" in told(there, "restore", tmp_path / "b.zip")
    same = place(tmp_path / "same", "sqlite", DJANGO_SECRET_KEY=key_of(here))
    assert "send new links" not in told(same, "restore", tmp_path / "b.zip")


def key_of(environment):
    return (Path(environment["FOREDAY_DATA"]) / "secret_key").read_text()


def test_a_picture_that_is_lost_is_told_and_all_else_is_kept(source, tmp_path):
    _here, archive, _kind = source
    there = place(tmp_path / "there", "sqlite", DJANGO_SECRET_KEY="x" * 60)
    assert "send new links" in told(there, "restore", archive)  # the environment's key stays
    sorted((tmp_path / "there" / "pictures").rglob("*.jpg"))[0].unlink()
    report = json.loads(told(there, "backup", tmp_path / "b.zip", "--json"))
    assert (report["pictures"], len(report["missing"]), report["key"]) == (11, 1, False)


def test_a_backup_takes_the_place_of_an_older_one_and_of_nothing_else(tmp_path):
    here = place(tmp_path / "here", "sqlite")
    for _again in range(2):
        done = run(here, "backup", tmp_path / "b.zip")  # of an empty place
        assert (done.returncode, "0 weddings" in done.stdout) == (0, True), done.stderr
    (tmp_path / "vows.txt").write_text("I do")
    assert "Choose another name" in refused(here, "backup", tmp_path / "vows.txt")
    assert (tmp_path / "vows.txt").read_text() == "I do"
    assert "is a folder" in refused(here, "backup", tmp_path)
    assert "No such file" in refused(here, "backup", tmp_path / "nowhere" / "b.zip")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("CREATE TABLE theirs (x)", "parts that none of Foreday has"),
        ("UPDATE intake_picture SET file = '../../secret_key'", "a file that no backup has"),
    ],
)
def test_a_database_that_none_of_ours_could_be_is_refused(source, tmp_path, change, words):
    _here, archive, _kind = source
    with contextlib.closing(content(archive, tmp_path)) as database, database:
        database.execute(change)
    with zipfile.ZipFile(archive) as old, (tmp_path / "a.zip").open("wb") as file:
        manifest = json.loads(old.read("manifest.json")) | {"members": {}}
        packer = Packer(file, Manifest(**manifest))
        with (tmp_path / "d.sqlite3").open("rb") as changed:
            packer.add("database.sqlite3", changed)
        packer.finish()
    line = refused(place(tmp_path / "there"), "restore", tmp_path / "a.zip")
    assert words in line
