"""The light command as typed: JSON on standard output, one clear line for bad input."""

import json
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

MANAGE = Path(__file__).parents[2] / "manage.py"
ASKED = {"--at": "51.5,-0.12", "--zone": "Europe/London", "--date": "2026-06-20"}


def light(*more, **changes):
    words = {**ASKED, **{f"--{k}": v for k, v in changes.items()}}
    out = StringIO()
    call_command("light", *(x for pair in words.items() for x in pair), *more, stdout=out)
    return out.getvalue()


def test_it_prints_one_json_object():
    report = json.loads(
        light("--json", "--time", "19:00", "--facing", "90", "--visit", "2026-06-06")
    )
    assert set(report) == {"events", "noon", "now", "visit", "moon", "second_opinion"}
    sunset = next(e for e in report["events"] if e["kind"] == "sunset")
    # SPA altitude root, computed with pvlib 0.16.1: 21:21:15.8.
    assert sunset["at"] == "2026-06-20T21:21:16+01:00"
    assert report["now"]["lit"] == "back"


def test_it_prints_lines_for_people():
    text = light("--time", "19:00")
    assert "golden_evening_start" in text
    assert "moon: " in text


def test_a_southern_latitude_may_begin_with_its_minus():
    assert "sunset" in light(at="-36.85,174.76", zone="Pacific/Auckland")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"at": "95,200"}, "Latitude 95"),
        ({"at": "somewhere"}, "no coordinates"),
        ({"zone": "Mars/Base"}, "no time zone"),
        ({"date": "2026-02-30"}, "date like"),
        ({"date": "0001-01-01"}, "year 1"),
        ({"time": "25:00"}, "time like"),
        ({"time": "12:00", "facing": "north"}, "bearing in degrees"),
        ({"time": "12:00", "facing": "400"}, "bearing 400"),
        ({"time": "12:00", "visit": "soon"}, "date like"),
        ({"visit": "2026-06-06"}, "time of day"),
    ],
)
def test_bad_input_is_refused_in_one_line(changes, words):
    with pytest.raises(CommandError, match=words) as caught:
        light(**changes)
    assert caught.value.returncode == 2
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("more", [["--at", "95,200", "--zone", "UTC", "--date", "2026-06-20"], []])
def test_from_the_shell_bad_input_exits_2_without_a_traceback(more):
    done = subprocess.run(
        [sys.executable, str(MANAGE), "light", *more], capture_output=True, text=True, timeout=60
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"at": "-0.12,51.5"}, "The other way round, 51.5, -0.12, it is in Europe/London"),
        ({"at": "18.07,59.33", "zone": "Europe/Stockholm"}, "were the two swapped?"),
        ({"at": "0,-30"}, "open sea"),
        ({"at": "90,0"}, "this is a pole"),
        ({"at": "40.4,-3.7"}, "the clocks there go by Europe/Madrid, not by Europe/London"),
        ({"date": "2026-10-25", "time": "01:30"}, "the clocks show 01:30 twice that day"),
    ],
)
def test_what_is_odd_but_can_be_answered_is_noted_in_one_line_beside_the_answer(changes, words):
    words_on_stderr = StringIO()
    typed = {**ASKED, **{f"--{k}": v for k, v in changes.items()}}
    out = StringIO()
    call_command(
        "light", *(x for pair in typed.items() for x in pair), stdout=out, stderr=words_on_stderr
    )
    assert "noon" in out.getvalue()
    (line,) = words_on_stderr.getvalue().splitlines()
    assert words.lower() in line.lower()


def test_nothing_odd_is_noted_of_an_ordinary_place():
    words_on_stderr = StringIO()
    typed = (x for pair in ASKED.items() for x in pair)
    call_command("light", *typed, "--time", "19:00", stdout=StringIO(), stderr=words_on_stderr)
    assert words_on_stderr.getvalue() == ""
