import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LIST = {"groups": [{"id": "a", "people": ["Ana"], "minutes": 4}, {"id": "b", "people": ["Bo"]}]}


def order(path, *options, **run):
    return subprocess.run(
        [sys.executable, "manage.py", "order", str(path), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        **run,
    )


def test_the_order_is_one_json_object(tmp_path):
    path = tmp_path / "list.json"
    path.write_text(json.dumps(LIST))
    ran = order(path, "--json")
    assert (ran.returncode, ran.stderr) == (0, "")
    assert json.loads(ran.stdout)["order"] == ["b", "a"]


def test_without_json_it_reads_as_lines(tmp_path):
    path = tmp_path / "list.json"
    path.write_text(json.dumps(LIST))
    ran = order(path)
    assert ran.returncode == 0
    assert ran.stdout.splitlines()[0] == "  1.    0.0 min  b"
    assert "proven best" in ran.stdout


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b'{"groups": [{"id": "a\\n", "x": 1}]}',
        b'{"groups": []}',
        b" " * 8_000_001,
    ],
)
def test_bad_input_ends_with_one_line_and_two(tmp_path, content):
    path = tmp_path / "list.json"
    path.write_bytes(content)
    ran = order(path, "--json")
    assert ran.returncode == 2
    assert ran.stdout == ""
    assert len(ran.stderr.splitlines()) == 1
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("name", ["none.json", ".", "two\nlines", ""])
def test_what_is_no_file_ends_with_one_line_and_two(tmp_path, name):
    ran = order(f"{tmp_path}/{name}")
    assert ran.returncode == 2
    assert len(ran.stderr.splitlines()) == 1
    assert "cannot read" in ran.stderr


def test_the_list_may_come_on_standard_input():
    ran = order("-", "--json", input=json.dumps(LIST))
    assert json.loads(ran.stdout)["order"] == ["b", "a"]
    nothing = order("-", stdin=subprocess.DEVNULL)
    assert nothing.returncode == 2
    assert len(nothing.stderr.splitlines()) == 1


def test_names_are_printed_on_a_terminal_without_their_letters(tmp_path):
    path = tmp_path / "list.json"
    path.write_text(json.dumps({"groups": [{"id": "Zoë", "people": ["Zoë"]}]}))
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    assert "Zo\\xeb" in order(path, env=environment).stdout
    assert json.loads(order(path, "--json", env=environment).stdout)["order"] == ["Zoë"]


def test_the_help_tells_the_limits():
    ran = order("--help")
    assert ran.returncode == 0
    for told in ("250 groups", "500 rules", "0.1 or more", '"verdict"', '"cut"'):
        assert told in ran.stdout
