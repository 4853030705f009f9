"""Nothing of a file is used that is not, to the last byte, a backup of ours."""

import io
import json
import os
import sqlite3
import zipfile
from contextlib import closing
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from hypothesis import given
from hypothesis import strategies as st

from planning.backup.archive import (
    DATABASE,
    MANIFEST,
    MOST_PICTURE,
    WHAT,
    BackupError,
    Manifest,
    Packer,
    opened,
)
from planning.backup.make import make_backup

from .places import place, refused

APPLIED = "CREATE TABLE django_migrations (id INTEGER PRIMARY KEY, app TEXT, name TEXT, applied)"
PICTURE = f"pictures/thora-lukasz/{'0' * 32}.jpg"
CONTENT = {
    DATABASE: b"SQLite format 3" * 50,
    PICTURE: b"\xff\xd8 a picture",
    "secret_key": b"k" * 50,
}


def packed(content=CONTENT):
    file = io.BytesIO()
    packer = Packer(file, Manifest("0.2.0", "2026-11-26T12:00:00+00:00", "sqlite", [], "ab"))
    for name, value in content.items():
        packer.add(name, io.BytesIO(value))
    packer.finish()
    return file.getvalue()


WHOLE = packed()


def read(archive):
    """Every member of an archive that was checked. Raises BackupError."""
    with opened(io.BytesIO(archive), "a.zip") as file:
        file.check()
        return {name: b"".join(file.chunks(name)) for name in file.manifest.members}


def changed(members=None, manifest=None, whole=WHOLE):
    """The whole one with other members ({name: bytes, or None}) and values in its manifest."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(whole)) as old, zipfile.ZipFile(out, "w") as new:
        content = {name: old.read(name) for name in old.namelist()} | (members or {})
        content[MANIFEST] = json.dumps(json.loads(content[MANIFEST]) | (manifest or {})).encode()
        for name, value in content.items():
            if value is not None:
                new.writestr(name, value)
    return out.getvalue()


def database_of(*statements):
    """A database of SQLite as a file holds it."""
    with closing(sqlite3.connect(":memory:")) as made:
        for statement in statements:
            made.execute(statement)
        made.commit()
        return made.serialize()


def sums(**more):
    """What the manifest says of the members, and of more."""
    with opened(io.BytesIO(WHOLE), "a.zip") as file:
        return {"members": file.manifest.members | more}


def test_a_whole_one_gives_back_what_was_put_in():
    assert read(WHOLE) == CONTENT
    assert read(changed()) == CONTENT


def test_any_standard_program_reads_it():
    with zipfile.ZipFile(io.BytesIO(WHOLE)) as file:
        assert file.testzip() is None
        assert json.loads(file.read(MANIFEST))["what"] == WHAT


@given(st.integers(0, len(WHOLE) - 1))
def test_one_that_was_cut_off_is_refused(length):
    with pytest.raises(BackupError):
        read(WHOLE[:length])


@given(st.integers(0, len(WHOLE) - 1), st.integers(1, 255))
def test_a_byte_that_changed_is_noticed_or_is_no_part_of_what_it_holds(place, by):
    spoilt = bytearray(WHOLE)
    spoilt[place] ^= by
    try:
        found = read(bytes(spoilt))
    except BackupError:
        return
    assert found == CONTENT


@given(st.binary(max_size=300))
def test_anything_else_is_refused(content):
    with pytest.raises(BackupError, match="no backup of Foreday"):
        read(content)


@pytest.mark.parametrize(
    "name",
    [
        "../secret_key",
        "pictures/../../secret_key",
        "/etc/cron.d/x",
        "pictures/thora-lukasz/../x.jpg",
        f"pictures\\thora\\{'0' * 32}.jpg",
        f"C:/{'0' * 32}.jpg",
        f"pictures/a/b/{'0' * 32}.jpg",
        f"pictures/thora-lukasz/{'0' * 32}.html",
        f"pictures/thora-lukasz/{'0' * 32}.jpg\n",
        "pictures/thora-lukasz/",
        "settings.py",
    ],
)
def test_a_name_that_climbs_out_or_is_none_of_ours_is_refused(name):
    told_of = changed({name: b"x"}, sums(**{name: [1, "2d711642b726b044"]}))
    for archive in (told_of, changed({name: b"x"})):
        with pytest.raises(BackupError, match="no backup has"):
            read(archive)


@pytest.mark.parametrize(
    "archive",
    [
        changed({PICTURE: b"another picture!"}),
        changed({PICTURE: b"\xff\xd8 a picturE"}),
        changed({PICTURE: None}),
        changed({DATABASE: None}),
        changed(manifest={"members": []}),
        changed(manifest={"members": {DATABASE: "x"}}),
        changed(manifest={"members": {DATABASE: [-1, ""]}}),
        changed(manifest={"what": "a backup of something else"}),
        changed(manifest={"unheard": 1}),
        changed(manifest={"migrations": [5]}),
        changed(manifest={"version": "\x1b[31m"}),
        changed(manifest={"missing": ["two\nlines"]}),
        changed(manifest={"weddings": "many"}),
        packed(CONTENT | {PICTURE: bytes(MOST_PICTURE + 1)}),
        changed(manifest={"migrations": 5}),
        changed(manifest={"missing": None}),
        packed({"secret_key": b"k"}),
    ],
)
def test_members_that_are_not_as_the_manifest_says_are_refused(archive):
    with pytest.raises(BackupError, match="damaged"):
        read(archive)


@pytest.mark.parametrize("key", [b"", b"short", b"\xff" * 50, b"\0" * 50])
def test_a_key_that_would_leave_the_place_unusable_is_not_put_back(tmp_path, key):
    (tmp_path / "a.zip").write_bytes(packed(CONTENT | {"secret_key": key}))
    line = refused(place(tmp_path / "here", "sqlite"), "restore", tmp_path / "a.zip")
    assert "the secret key in it cannot be used" in line


def test_a_member_that_is_there_twice_is_refused():
    file = io.BytesIO(WHOLE)
    with zipfile.ZipFile(file, "a") as twice, pytest.warns(UserWarning, match="Duplicate"):
        twice.writestr(DATABASE, CONTENT[DATABASE])
    with pytest.raises(BackupError, match="damaged"):
        read(file.getvalue())


def test_a_member_that_unpacks_to_more_than_it_says_stops_there():
    big = changed({DATABASE: bytes(10_000_000)})
    with opened(io.BytesIO(big), "a.zip") as file, pytest.raises(BackupError):
        assert sum(len(chunk) for chunk in file.chunks(DATABASE)) < 2_000_000


@pytest.mark.parametrize(
    ("archive", "words"),
    [
        (changed(manifest={"form": 2, "version": "9.0.0"}), "made by a newer Foreday (9.0.0)"),
        (changed(manifest={"migrations": ["intake.0999_more"]}), "made by a newer Foreday (0.2.0)"),
        (WHOLE[:500], "cut off"),
    ],
)
def test_the_command_says_why_in_one_line_and_changes_nothing(
    db, wedding, tmp_path, archive, words
):
    (tmp_path / "a.zip").write_bytes(archive)
    with pytest.raises(CommandError) as refusal:
        call_command("restore", str(tmp_path / "a.zip"), "--replace")
    assert words in str(refusal.value)
    assert "\n" not in str(refusal.value)
    assert refusal.value.returncode == 2
    wedding.refresh_from_db()


def test_a_database_that_is_none_is_told_and_nothing_is_put(tmp_path):
    (tmp_path / "a.zip").write_bytes(WHOLE)
    line = refused(place(tmp_path / "here", "sqlite"), "restore", tmp_path / "a.zip")
    assert "its database cannot be read" in line
    there = {path.name: path.stat().st_size for path in (tmp_path / "here").iterdir()}
    assert there.keys() == {"secret_key", "foreday.sqlite3"}
    assert there["foreday.sqlite3"] == 0  # made beforehand, for its owner alone


@pytest.mark.parametrize(
    "statements",
    [
        [APPLIED, "INSERT INTO django_migrations VALUES (1, 'planning', '0001_initial', 0)"],
        ["CREATE TABLE django_migrations (x)"],
        ["CREATE TABLE auth_user (x)"],
    ],
)
def test_a_database_of_something_else_is_told(tmp_path, statements):
    (tmp_path / "a.zip").write_bytes(packed({DATABASE: database_of(*statements)}))
    line = refused(place(tmp_path / "here", "sqlite"), "restore", tmp_path / "a.zip")
    assert "its database cannot be read" in line


def test_a_manifest_that_is_packed_as_none_of_ours_is_refused():
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_LZMA) as made:
        made.writestr(MANIFEST, b"{}" * 500)
    spoilt = bytearray(file.getvalue())
    spoilt[52:60] = b"\xff" * 8
    with pytest.raises(BackupError, match="damaged"):
        read(bytes(spoilt))


def test_a_pipe_is_not_waited_for(db, tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(BackupError, match="no backup"), opened(tmp_path / "pipe", "pipe"):
        pass
    with pytest.raises(BackupError, match="is no backup of Foreday"):
        make_backup(tmp_path / "pipe")


def test_a_name_that_no_disk_takes_is_told(db):
    with pytest.raises(BackupError, match="File name too long"):
        make_backup(Path("x" * 300))


def test_a_file_that_is_not_there_is_told():
    with pytest.raises(BackupError, match=r"nowhere\.zip: No such file"):
        raise_for("nowhere.zip")


def raise_for(path):
    with opened(path, path):
        pass
