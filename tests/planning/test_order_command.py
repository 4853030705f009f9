import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LIST = {"groups": [{"id": "a", "people": ["Ana"], "minutes": 4}, {"id": "b", "people": ["Bo"]}]}


def order(path, *options):
    return subprocess.run(
        [sys.executable, "manage.py", "order", str(path), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
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
    "content", [b"", b"{", b"\xff\xfe", b'{"groups": [{"id": "a\\n", "x": 1}]}']
)
def test_bad_input_ends_with_one_line_and_two(tmp_path, content):
    path = tmp_path / "list.json"
    path.write_bytes(content)
    ran = order(path, "--json")
    assert ran.returncode == 2
    assert ran.stdout == ""
    assert len(ran.stderr.splitlines()) == 1
    assert "Traceback" not in ran.stderr


def test_a_file_that_is_not_there_ends_with_one_line_and_two(tmp_path):
    ran = order(tmp_path / "none.json")
    assert ran.returncode == 2
    assert len(ran.stderr.splitlines()) == 1
