"""The settings hold what the design promises, read back from the running parts."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.db import connection

ROOT = Path(__file__).parent.parent
ONLINE = {
    "DJANGO_ALLOWED_HOSTS": "studio.example",
    "DJANGO_SECRET_KEY": "a-long-and-random-looking-key-that-only-this-test-knows-0123456789",
}


@pytest.mark.django_db
@pytest.mark.skipif(connection.vendor != "sqlite", reason="asks SQLite")
@pytest.mark.parametrize(
    ("pragma", "value"),
    [("synchronous", 2), ("foreign_keys", 1), ("busy_timeout", 10000), ("secure_delete", 1)],
)
def test_sqlite_runs_as_set(pragma, value):
    with connection.cursor() as cursor:
        assert cursor.execute(f"PRAGMA {pragma}").fetchone() == (value,)


def manage(*args, data, **environment):
    """A command in a process of its own, on SQLite, whatever the tests run on."""
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    environment = {**kept, "FOREDAY_DATA": str(data), **environment}
    command = [sys.executable, "manage.py", *args]
    return subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False
    )


def test_a_new_database_file_is_in_wal_and_writes_at_once(tmp_path):
    code = (
        "from django.db import connection, transaction\n"
        "print(connection.cursor().execute('PRAGMA journal_mode').fetchone()[0])\n"
        "print(connection.transaction_mode)"
    )
    run = manage("shell", "--no-imports", "-c", code, data=tmp_path)
    assert run.stdout.split() == ["wal", "IMMEDIATE"], run.stderr


def test_checks_for_going_online_have_nothing_to_say(tmp_path):
    run = manage("check", "--deploy", "--fail-level", "INFO", data=tmp_path, **ONLINE)
    assert run.returncode == 0, run.stderr
    assert "no issues" in run.stdout


def test_debug_pages_are_refused_online(tmp_path):
    """OWASP ASVS 5.0, 13.4.2."""
    run = manage("check", data=tmp_path, **ONLINE | {"DJANGO_DEBUG": "1"})
    assert run.returncode == 2
    assert run.stderr == "DJANGO_DEBUG and DJANGO_ALLOWED_HOSTS: one or the other.\n"
    assert manage("check", data=tmp_path, DJANGO_DEBUG="1").returncode == 0


def test_the_key_is_made_once_and_only_its_owner_reads_it(tmp_path):
    first = [manage("check", data=tmp_path, DJANGO_SECRET_KEY="").returncode for _ in range(2)]
    key = tmp_path / "secret_key"
    assert first == [0, 0]
    assert key.stat().st_mode & 0o077 == 0
    assert len(key.read_text()) >= 50


@pytest.mark.parametrize("content", [b"", b"short", b"\xff\xfe" * 30])
def test_a_key_that_is_none_is_told_in_one_line(tmp_path, content):
    (tmp_path / "secret_key").write_bytes(content)
    run = manage("check", data=tmp_path, DJANGO_SECRET_KEY="")
    assert run.returncode == 2
    (line,) = run.stderr.splitlines()
    assert "secret_key holds no secret key any more" in line


def test_a_key_that_can_be_guessed_is_refused(tmp_path):
    """A link is as hard to guess as the key that its secret is made with (OWASP ASVS 11.5.1)."""
    run = manage("check", data=tmp_path, **ONLINE | {"DJANGO_SECRET_KEY": "a"})
    assert run.returncode == 2
    assert run.stderr.startswith("DJANGO_SECRET_KEY: ")


def test_what_lies_in_the_data_folder_is_its_owners_alone(tmp_path):
    """Under the usual umask, in a folder that Foreday makes and in one that was there."""
    for folder in (tmp_path / "new" / "data", tmp_path / "there"):
        (tmp_path / "there").mkdir(mode=0o755, exist_ok=True)
        code = "umask 022; exec " + " ".join([sys.executable, "manage.py", "migrate", "-v0"])
        kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
        own = kept | {"FOREDAY_DATA": str(folder), "DJANGO_SECRET_KEY": ""}
        subprocess.run(["sh", "-c", code], cwd=ROOT, env=own, check=True)
        found = {path.name: path.stat().st_mode & 0o777 for path in folder.iterdir()}
        assert found == {"foreday.sqlite3": 0o600, "secret_key": 0o600}
    assert (tmp_path / "new" / "data").stat().st_mode & 0o777 == 0o700


def test_what_lies_beside_the_database_while_it_is_open_is_as_private(tmp_path):
    code = (
        "import os; from django.conf import settings; from django.db import connection\n"
        "connection.cursor().execute('CREATE TABLE t (x)')\n"
        "print(*[f'{p.name} {p.stat().st_mode & 0o777:o}' for p in settings.DATA_DIR.iterdir()])"
    )
    run = manage("shell", "--no-imports", "-c", code, data=tmp_path)
    assert "foreday.sqlite3-wal 600" in run.stdout, run.stderr
    assert "foreday.sqlite3-shm 600" in run.stdout


def test_every_model_change_has_its_migration(tmp_path):
    run = manage("makemigrations", "--check", "--dry-run", data=tmp_path)
    assert run.returncode == 0, run.stdout
