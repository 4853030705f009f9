import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DAY = {
    "date": "2026-06-20",
    "zone": "Europe/Madrid",
    "blocks": [
        {"id": "ceremony", "minutes": [30, 30, 30], "fixed": "14:00", "place": "church"},
        {"id": "groups", "minutes": [40, 40, 40], "place": "church", "after": ["ceremony"]},
        {"id": "meal", "title": "Déjeuner", "minutes": [60, 90, 120], "fixed": "15:30",
         "place": "venue", "after": ["groups"]},
    ],
    "travel": [{"from": "church", "to": "venue", "minutes": 25}],
}  # fmt: skip


def timeline(path, *options, **run):
    return subprocess.run(
        [sys.executable, "manage.py", "timeline", str(path), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        **run,
    )


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "day.json"
    path.write_text(json.dumps(DAY))
    return path


def test_the_day_is_one_json_object(path):
    ran = timeline(path, "--json")
    assert (ran.returncode, ran.stderr) == (0, "")
    told = json.loads(ran.stdout)
    assert set(told) >= {
        "verdict", "blocks", "stretches", "conflicts", "promises", "cuts", "leave_home"
    }  # fmt: skip
    assert [conflict["short_by"] for conflict in told["conflicts"]] == [14]


def test_without_json_it_reads_as_lines(path):
    ran = timeline(path)
    assert ran.returncode == 0
    assert ran.stdout.splitlines()[1].endswith('"Déjeuner" is fixed at 15:30: 14 minutes short')


def test_the_whole_output_of_a_day_that_does_not_fit(path):
    sentence = (
        '"ceremony" is fixed at 14:00; "ceremony" 30 + "groups" 40 + drive to "venue" 34 = '
        '104 minutes, so until 15:44 at the earliest; "Déjeuner" is fixed at 15:30: '
        "14 minutes short"
    )
    assert timeline(path).stdout.splitlines() == [
        "impossible",
        sentence,
        '  - ask to move "Déjeuner" to 15:44 (14 minutes later)',
        '  - ask to move "ceremony" to 13:46 (14 minutes earlier)',
        '"ceremony" to "Déjeuner": -14 minutes of slack in all',
    ]
    (conflict,) = json.loads(timeline(path, "--json").stdout)["conflicts"]
    assert conflict == {
        "statements": [
            '"ceremony" is fixed at 14:00',
            '"ceremony" takes 30 minutes',
            '"groups" takes 40 minutes',
            'the drive from "church" to "venue" takes 34 minutes (25 on the map and a third more)',
            '"Déjeuner" is fixed at 15:30',
        ],
        "short_by": 14,
        "text": sentence,
        "repairs": [
            {
                "kind": "move",
                "text": 'ask to move "Déjeuner" to 15:44 (14 minutes later)',
                "change": {"meal": {"fixed": "15:44"}},
            },
            {
                "kind": "move",
                "text": 'ask to move "ceremony" to 13:46 (14 minutes earlier)',
                "change": {"ceremony": {"fixed": "13:46"}},
            },
        ],
    }


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b'{"blocks": []}',
        b'{"blocks": [{"id": "a\\n", "x\\u001b": 1}], "date": "2026-06-20", "zone": "UTC"}',
        b" " * 1_000_001,
        b" " * 8_000_001,
        b'{"blocks": ' + b"9" * 10_000 + b"}",
    ],
)
def test_bad_input_ends_with_one_line_and_two(tmp_path, content):
    path = tmp_path / "day.json"
    path.write_bytes(content)
    ran = timeline(path, "--json")
    assert (ran.returncode, ran.stdout) == (2, "")
    assert len(ran.stderr.splitlines()) == 1
    assert "Traceback" not in ran.stderr
    assert "\x1b" not in ran.stderr


def test_what_is_no_file_ends_with_one_line_and_two(tmp_path):
    for name in ("none.json", "."):
        ran = timeline(tmp_path / name)
        assert ran.returncode == 2
        assert "cannot read" in ran.stderr


def test_the_day_may_come_on_standard_input():
    assert json.loads(timeline("-", "--json", input=json.dumps(DAY)).stdout)["blocks"]


def test_names_are_printed_on_a_terminal_without_their_letters(path):
    ran = timeline(path, env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert ran.returncode == 0
    assert "D\\xe9jeuner" in ran.stdout


def test_the_help_tells_the_limits_and_what_minutes_of_a_leg_are():
    ran = timeline("x", "--help")
    assert ran.returncode == 0
    for told in (
        "100 blocks",
        "47:59",
        "what the map says",
        "planned as 34",
        "never told as certain",
        "like a registrar's",
        "kept where the day allows",
    ):
        assert told in ran.stdout


def test_it_answers_the_same_whatever_the_hashes_of_the_process(path):
    answers = [
        timeline(path, "--json", env={**os.environ, "PYTHONHASHSEED": seed}).stdout
        for seed in ("1", "2")
    ]
    assert answers[0] == answers[1]
