"""What a kill left behind is found again at once, and nothing is taken from those at work."""

import json
import os
import secrets
from contextlib import contextmanager
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.core.management import CommandError

from planning import serving
from planning.backup import begun, database, make
from planning.serving import bring_up_to_date
from studio.disk import take_left_behind, written_whole
from tests.server import free_port

from .places import place, refused, run, told


@pytest.fixture
def folder(tmp_path, settings):
    settings.DATA_DIR = tmp_path
    return tmp_path


@pytest.fixture
def there(tmp_path):
    """An empty place, and beside it the backup of another, some.zip."""
    here = place(tmp_path / "here", "sqlite")
    told(here, "migrate", "-v0")
    told(here, "backup", tmp_path / "some.zip")
    return place(tmp_path / "there", "sqlite")


@contextmanager
def killed(block):
    """As after a kill: what the block made is there, and nobody holds it."""
    pid = os.fork()
    if pid == 0:
        block.__enter__()
        os._exit(0)
    os.waitpid(pid, 0)
    yield


def write(path, content):
    with written_whole(path) as file:
        file.write(content)


def hidden(folder):
    return [path.name for path in folder.iterdir() if path.name.startswith(".")]


@pytest.mark.parametrize("age", [0, 3 * 24 * 3600, -20 * 365 * 24 * 3600])
def test_a_work_folder_goes_when_its_process_is_gone_whatever_the_clock_says(folder, age):
    left = folder / ".work-abc"
    left.mkdir()
    (left / "database.sqlite3").write_bytes(b"x" * 100)
    at = os.stat(left).st_mtime - age
    os.utime(left, (at, at))
    with make.work_folder() as work:
        assert hidden(folder) == [work.name]
        assert work.stat().st_mode & 0o777 == 0o700
    assert hidden(folder) == []


def test_two_work_at_once_and_neither_takes_the_others(folder):
    with make.work_folder() as one:
        os.utime(one, (0, 0))
        with make.work_folder() as two:
            assert one.exists()
        assert one.exists()
        assert not two.exists()


def test_a_file_that_was_not_written_to_its_end_goes_with_the_next(folder):
    out, other = folder / "foreday.zip", folder / ".foreday.zip.notes"
    other.write_text("somebody's own")
    with killed(written_whole(out)):
        (left,) = set(hidden(folder)) - {other.name}
        assert (folder / left).stat().st_mode & 0o777 == 0o600
        write(out, b"whole")
        assert hidden(folder) == [other.name]
    with written_whole(out) as mine:
        write(out, b"meanwhile")
        mine.write(b"after all")
    assert out.read_bytes() == b"after all"


def test_a_file_of_our_own_backups_goes_though_the_next_has_another_name(folder):
    (folder / "backups").mkdir()
    with killed(written_whole(folder / "backups" / "before-migrate-20261101-101500.zip")):
        make.tidy_up()
    assert hidden(folder / "backups") == []


def test_a_link_of_such_a_name_leads_to_nothing_that_would_be_taken(tmp_path):
    kept = tmp_path / "kept"
    kept.mkdir()
    (kept / "a").write_text("a")
    (tmp_path / ".work-x").symlink_to(kept)
    take_left_behind(tmp_path, ".work-*")
    assert (kept / "a").exists()


def test_nobody_is_served_between_a_database_and_its_key(folder, db):
    words = {"backup": secrets.token_hex(32), "file": "/stick/foreday.zip", "key_waits": True}
    (folder / "restoring").write_text(json.dumps(words))
    with pytest.raises(CommandError, match=r"Run it again.*/stick/foreday\.zip") as refusal:
        bring_up_to_date()
    assert refusal.value.returncode == 2
    assert str(folder / "restoring") in str(refusal.value)
    (folder / "restoring").write_text(json.dumps(words | {"key_waits": False}))
    begun.must_be_through()


def test_a_damaged_database_is_moved_after_its_journal_which_it_would_lose_without_it(folder):
    for ending in ("", "-wal", "-shm"):
        (folder / f"season.sqlite3{ending}").write_text("words")
    (folder / "aside").mkdir()
    real = database.connection
    database.connection = SimpleNamespace(
        close=lambda: None, settings_dict={"NAME": str(folder / "season.sqlite3")}
    )
    try:
        moved = database.set_aside(folder / "aside")
    finally:
        database.connection = real
    assert [path.name for path in moved[::2]] == ["season.sqlite3-wal", "season.sqlite3"]


def test_who_starts_at_the_same_time_tidies_up_when_the_other_is_done(folder, db, monkeypatch):
    done = []

    @contextmanager
    def one_at_a_time():
        done.append("lock")
        yield
        done.append("free")

    monkeypatch.setattr(serving, "one_at_a_time", one_at_a_time)
    monkeypatch.setattr(serving, "tidy_up", lambda: done.append("tidy up"))
    monkeypatch.setattr(serving, "call_command", lambda name, **options: done.append(name))
    bring_up_to_date()
    assert done == ["lock", "tidy up", "migrate", "free"]


@pytest.mark.xdist_group("backup")
def test_the_same_restore_goes_on_and_another_backup_does_not(tmp_path):
    here = place(tmp_path / "here", "sqlite")
    told(here, "migrate", "-v0")
    code = "from intake.models import Wedding; Wedding.objects.create(public_id='{}')"
    archives = [tmp_path / "first.zip", tmp_path / "second.zip"]
    for archive in archives:
        told(here, "shell", "--no-imports", "-c", code.format(archive.stem))
        told(here, "backup", archive)
    there = place(tmp_path / "there", "sqlite")
    stop = (
        "from planning.backup import database, restore\n"
        "from pathlib import Path; import os\n"
        "real = database.put_in_place\n"
        "database.put_in_place = lambda path: (real(path), os._exit(9))\n"
        f"restore.restore(Path({str(archives[0])!r}))"
    )
    assert run(there, "shell", "--no-imports", "-c", stop).returncode == 9
    assert "A restore was cut off here" in refused(
        there, "serve", "--listen", f"127.0.0.1:{free_port()}"
    )
    assert "not empty (weddings: 1," in refused(there, "restore", archives[1])
    report = json.loads(told(there, "restore", archives[0], "--json"))
    assert (report["weddings"], report["links_open"]) == (1, True)
    assert Path(report["before"]).exists()  # somebody may have worked with it meanwhile
    assert not (tmp_path / "there" / "restoring").exists()
    assert "not empty" in refused(there, "restore", archives[0])


@pytest.mark.xdist_group("backup")
def test_a_restore_is_over_only_when_nothing_of_its_work_is_left(tmp_path, there):
    stop = (
        "from planning.backup import restore\n"
        "from pathlib import Path; import os\n"
        "restore.end = lambda: os._exit(9)\n"
        f"restore.restore(Path({str(tmp_path / 'some.zip')!r}))"
    )
    assert run(there, "shell", "--no-imports", "-c", stop).returncode == 9
    assert hidden(tmp_path / "there") == []
    told(there, "restore", tmp_path / "some.zip")
    assert not (tmp_path / "there" / "restoring").exists()


@pytest.mark.xdist_group("backup")
def test_ctrl_c_is_heard_when_the_database_is_there_and_nobody_is_served_without_its_key(
    tmp_path, there
):
    """Copying is one step of SQLite's own, in which Python hears nothing."""
    stop = (
        "from planning.backup import database, restore\n"
        "from pathlib import Path; import signal\n"
        "real = database.put_in_place\n"
        "database.put_in_place = lambda path: (real(path), signal.raise_signal(signal.SIGINT))\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        f"restore.restore(Path({str(tmp_path / 'some.zip')!r}))"
    )
    assert run(there, "shell", "--no-imports", "-c", stop).returncode == 130
    assert "A restore was cut off here" in refused(
        there, "serve", "--listen", f"127.0.0.1:{free_port()}"
    )
    told(there, "restore", tmp_path / "some.zip")


@pytest.mark.xdist_group("backup")
def test_a_database_may_take_longer_to_copy_than_others_are_waited_for(tmp_path, there):
    slow = (
        "from planning.backup import database, restore; from pathlib import Path\n"
        "database.PATIENCE = -1\n"
        f"restore.restore(Path({str(tmp_path / 'some.zip')!r}))"
    )
    told(there, "shell", "--no-imports", "-c", slow)
    assert not (tmp_path / "there" / "restoring").exists()
