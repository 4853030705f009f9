"""Whatever becomes of a command's terminal, pipe or disk: no traceback."""

import fcntl
import json
import os
import signal
import subprocess
import sys
import termios
import time
from contextlib import suppress
from pathlib import Path

import pytest

from planning.management.one_line import LONGEST, one_line
from tests.command_line import run
from tests.own_place import environment_for
from tests.server import ROOT
from tests.server import manage as well

from .test_refusals import assert_one_line, manage

ASKED = "light --at 51.5,-0.12 --zone Europe/London --date 2026-06-20"
# Of what a shell starts in the background, and all below it, nobody hears Ctrl-C.
HEARS_CTRL_C = ["env", "--default-signal=INT"]
ORDER = '{"groups": [{"id": "Zoë", "people": ["Łukasz"], "minutes": 2}]}'


def shell(line, data, **more):
    """A line as a shell takes it, where `manage` is a command; its status is that of `manage`."""
    whole = f'manage() {{ "{sys.executable}" manage.py "$@"; echo $? >&3; }}; {line}'
    status, written = os.pipe()
    try:
        done = subprocess.run(
            ["bash", "-c", f"exec 3>&{written}; {whole}"],
            cwd=ROOT,
            env={**os.environ, "FOREDAY_DATA": str(data), **more},
            capture_output=True,
            pass_fds=[written],
            timeout=60,
        )
    finally:
        os.close(written)
    with open(status) as told:
        return int(told.read()), done.stdout, done.stderr


def test_a_reader_that_has_read_enough_is_no_error(tmp_path):
    assert shell(f"manage {ASKED} | true", tmp_path) == (141, b"", b"")


def test_a_full_disk_behind_standard_output_is_one_line(tmp_path):
    code, _out, err = shell(f"manage {ASKED} --json >/dev/full", tmp_path)
    assert (code, err) == (2, b"No space left on device.\n")
    assert shell(f"manage {ASKED} >/dev/full 2>&1", tmp_path)[0] == 2
    assert shell("manage light 2>/dev/full", tmp_path) == (2, b"", b"")


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&-", ">&- 2>&- <&-"])
def test_without_standard_streams_it_works_all_the_same(tmp_path, closed):
    code, _out, err = shell(f"manage {ASKED} {closed}", tmp_path)
    assert (code, err) == (0, b"")


@pytest.mark.parametrize(
    "terminal", [{"LC_ALL": "C"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "POSIX", "LANG": ""}]
)
def test_a_terminal_of_few_letters_gets_every_name(tmp_path, terminal):
    code, out, err = shell(f"echo '{ORDER}' | manage order - --json", tmp_path, **terminal)
    assert (code, err) == (0, b"")
    assert json.loads(out)["order"] == ["Zoë"]
    assert shell(f"echo '{ORDER}' | manage order -", tmp_path, **terminal)[::2] == (0, b"")


@pytest.mark.parametrize(
    "words",
    [
        ("daypack", b"\xff\xfe", "--out", b"\xff.pdf"),
        ("backup", b"none/\xff.zip"),
        ("light", "--at", b"\xff", "--zone", b"\xff", "--date", b"\xff"),
        ("order", b"\xff"),
        ("order", "x", "--settings", "no.such.settings"),
        ("migrate", "nonsense"),
        ("migrate", "--database", "x\ny"),
    ],
)
def test_words_that_are_no_text_or_no_name(tmp_path, words):
    assert_one_line(manage(*words, data=tmp_path))


@pytest.mark.parametrize("told", [signal.SIGINT, signal.SIGTERM])
def test_a_command_that_is_interrupted_leaves_without_a_word(tmp_path, told):
    """While it waits for its file."""
    command = [*HEARS_CTRL_C, sys.executable, "manage.py", "order", "-"]
    with subprocess.Popen(
        command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        env={**os.environ, "FOREDAY_DATA": str(tmp_path)},
    ) as waiting:  # fmt: skip
        os.write(waiting.stdin.fileno(), b" ")
        while unread(waiting.stdin):
            time.sleep(0.02)
        waiting.send_signal(told)
        out, err = waiting.communicate(timeout=60)
    assert (waiting.returncode, out, err) == (130 if told == signal.SIGINT else -told, b"", b"")


def unread(pipe):
    """Whether something lies in a pipe that nobody has taken out."""
    return any(fcntl.ioctl(pipe, termios.FIONREAD, bytes(4)))


def test_a_paper_that_is_interrupted_while_it_is_drawn_leaves_no_word_and_no_file(tmp_path):
    """Ctrl-C goes to every process of the terminal, also to those that draw."""
    environment = environment_for(tmp_path)
    wedding = json.loads(well(environment, "demo", "--no-serve", "--json"))["weddings"][0]["id"]
    out = tmp_path / "out.pdf"
    command = [*HEARS_CTRL_C, sys.executable, "manage.py", "daypack", wedding, "--out", str(out)]
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, stderr=subprocess.PIPE, start_new_session=True
    ) as drawing:
        while not draws(drawing.pid) and drawing.poll() is None:
            time.sleep(0.02)
        time.sleep(0.2)
        os.killpg(drawing.pid, signal.SIGINT)
        err = drawing.communicate(timeout=60)[1]
    assert (drawing.returncode, err) == (130, b"")
    assert not [path.name for path in tmp_path.iterdir() if "out.pdf" in path.name]


def draws(pid):
    """Whether the process that draws has begun to load what it draws with."""
    with suppress(OSError):  # one of them has ended since
        inner = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        return any(b"forkserver" in Path(f"/proc/{each}/cmdline").read_bytes() for each in inner)
    return False


def test_nothing_that_was_typed_reaches_the_terminal_as_an_order_to_it():
    for words in (["--x\x1b[31m"], ["--at", "\x1b]0;x\x07", "--zone", "\x9b1m", "--date", "x\ny"]):
        ran = run("light", *words)
        assert (ran.code, ran.out) == (2, "")
        assert ran.err.removesuffix("\n").isprintable()


def test_a_message_is_one_line_and_keeps_what_a_name_is_made_of():
    assert one_line("a\n\x1b[31m\u202eb\udcff") == r"a \x1b[31m\u202eb\udcff"
    assert one_line("Þóra 👩‍👧") == "Þóra 👩‍👧"
    told = one_line("x" * 100_000 + ": File name too long")
    assert len(told) < LONGEST + 10
    assert told.endswith(": File name too long")
