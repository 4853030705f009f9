"""What cannot be used is told in one line on standard error, with 2 and no traceback."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent


def manage(*args, data, **environment):
    on_sqlite = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    return subprocess.run(
        [sys.executable, "manage.py", *args],
        cwd=ROOT,
        env={**on_sqlite, "FOREDAY_DATA": str(data), **environment},
        capture_output=True,
        check=False,
    )


def assert_one_line(run):
    assert run.returncode == 2, run.stderr.decode(errors="replace")
    assert run.stderr.count(b"\n") == 1
    assert b"Traceback" not in run.stderr


@pytest.mark.parametrize(
    "args",
    [
        ("daypack",),
        ("daypack", "nobody"),
        ("daypack", b"\xff", "--out", "x.pdf"),
        ("calendar", "nobody", "--out"),
        ("demo", "--nonsense"),
        ("demo", "--port", "many"),
        ("order",),
        ("order", "no-such-file.json"),
        ("bench", "--lists", "0"),
        ("bench", "--seconds", "nan"),
        ("bench", "--seconds", "-1"),
        ("light", "--at", "1,2"),
    ],
)
def test_words_that_a_command_cannot_use(tmp_path, args):
    assert_one_line(manage(*args, data=tmp_path))


def test_a_data_folder_that_is_a_file(tmp_path):
    file = tmp_path / "file"
    file.write_text("")
    assert_one_line(manage("demo", "--no-serve", data=file))


def test_an_address_of_no_database(tmp_path):
    assert_one_line(manage("demo", "--no-serve", data=tmp_path, DATABASE_URL="bogus"))


def test_a_database_file_that_is_none(tmp_path):
    (tmp_path / "foreday.sqlite3").write_text("this is no database, only a text" * 100)
    assert_one_line(manage("demo", "--no-serve", data=tmp_path))


def test_half_a_letter_in_a_list_of_groups(tmp_path):
    for text in ('[{"id": "\\ud800"}]', '[{"id": "a", "title": "\\ud800", "people": ["Ana"]}]'):
        path = tmp_path / "list.json"
        path.write_text(f'{{"groups": {text}}}')
        assert_one_line(manage("order", str(path), data=tmp_path))


def test_a_terminal_that_cannot_write_the_names_gets_them_all_the_same(tmp_path):
    run = manage("demo", "--no-serve", data=tmp_path, PYTHONIOENCODING="ascii")
    assert run.returncode == 0, run.stderr
    assert b"ukasz" in run.stdout
