"""Before the database changes its shape, it is kept as it is."""

import json
import zipfile
from pathlib import Path

import pytest

from planning.backup.archive import Manifest, Packer

from .places import place, refused, run, told

pytestmark = pytest.mark.xdist_group("backup")
BEFORE = ("intake", "0001")  # of the first version
# As that version wrote it, whose models are not ours any more.
WRITE = (
    "from django.db import connection as c\n"
    "from django.db.migrations.loader import MigrationLoader as L\n"
    "apps = L(c).project_state([n for n in L(c).applied_migrations if n[0]]).apps\n"
    "w = apps.get_model('intake', 'Wedding').objects.create(public_id='first', matters='Oma')\n"
)
KILLED = (
    "import os; from django.core.management import call_command as c\n"
    "from django.db.migrations.recorder import MigrationRecorder as R\n"
    "R.record_applied = lambda *which: os._exit(9)\n"
    "c('migrate', 'intake', '0004')"
)


def test_a_migration_that_waits_begins_with_a_backup_that_can_be_put_back(tmp_path):
    here = place(tmp_path / "here")
    assert "Kept as it was" not in told(here, "migrate", *BEFORE)  # there was nothing
    told(here, "shell", "--no-imports", "-c", WRITE)
    said = told(here, "migrate")
    (kept,) = (tmp_path / "here" / "backups").iterdir()
    assert f"Kept as it was: {kept}" in said
    assert kept.stat().st_mode & 0o777 == 0o600
    assert kept.parent.stat().st_mode & 0o777 == 0o700
    with zipfile.ZipFile(kept) as archive:
        migrations = json.loads(archive.read("manifest.json"))["migrations"]
    assert [each for each in migrations if each.startswith("intake")] == ["intake.0001_initial"]
    assert "Kept as it was" not in told(here, "migrate")  # none waits any more
    there = place(tmp_path / "there")
    told(there, "restore", kept)  # with the migrations that came since
    code = "from intake.models import Wedding; print(Wedding.objects.get().matters)"
    assert told(there, "shell", "--no-imports", "-c", code).strip() == "Oma"


def test_only_the_last_few_are_kept_and_a_restore_has_its_own(tmp_path, monkeypatch):
    from planning.backup import own

    monkeypatch.setattr(own.settings, "DATA_DIR", tmp_path)
    folder = own.backup_folder()
    for day in range(1, 9):
        (folder / f"before-migrate-202611{day:02}-101500.zip").touch()
    (folder / "before-restore-20261101-101500.zip").touch()
    own.keep_the_last("before-migrate", folder / "before-migrate-20261108-101500.zip")
    days = [path.stem[-9:-7] for path in own.own_backups("before-migrate")]
    assert days == ["08", "07", "06", "05", "04"]
    assert len(own.own_backups()) == 6


def test_the_one_just_made_stays_though_the_clock_was_set_back(tmp_path, monkeypatch):
    from planning.backup import own

    monkeypatch.setattr(own.settings, "DATA_DIR", tmp_path)
    folder = own.backup_folder()
    made = folder / "before-migrate-19700101-000500.zip"
    for path in (made, *(folder / f"before-migrate-2026110{n}-101500.zip" for n in range(1, 7))):
        path.touch()
    own.keep_the_last("before-migrate", made)
    assert made.exists()
    days = [path.stem[-9:-7] for path in own.own_backups() if path != made]
    assert days == ["06", "05", "04", "03"]


def test_an_update_that_fails_again_and_again_leaves_the_backup_from_before_it(
    tmp_path, monkeypatch
):
    from planning.backup import own

    monkeypatch.setattr(own.settings, "DATA_DIR", tmp_path)
    folder = own.backup_folder()
    for day, stood in enumerate("abbbbbbbb", start=1):
        made = folder / f"before-migrate-202611{day:02}-101500.zip"
        with made.open("wb") as file:
            Packer(file, Manifest("0.2.0", "2026", "sqlite", [stood], "ab")).finish()
        own.keep_the_last("before-migrate", made)
    days = [path.stem[-9:-7] for path in own.own_backups("before-migrate")]
    assert days == ["09", "08", "07", "06", "01"]


def test_a_migration_that_is_killed_before_it_is_noted_was_not_made(tmp_path):
    """Django's own leaves a moment between the two, after which no migration goes through."""
    here = place(tmp_path / "here")
    told(here, "migrate", "intake", "0003")
    assert run(here, "shell", "--no-imports", "-c", KILLED).returncode == 9
    told(here, "migrate")
    told(here, "migrate", "--check")


def test_without_room_for_the_backup_nothing_is_migrated(tmp_path):
    here = place(tmp_path / "here", "sqlite")
    told(here, "migrate", *BEFORE)
    Path(here["FOREDAY_DATA"], "backups").write_text("a file where the folder should be")
    line = refused(here, "migrate")
    assert "Nothing was migrated" in line
    assert "--skip-backup" in line
    told(here, "migrate", "--skip-backup", "-v0")
    told(here, "migrate", "--check")
