"""The file that a command writes is whole, or what was there before."""

import os
import resource
import shutil
import subprocess
import threading
from contextlib import contextmanager
from pathlib import Path

import pytest
from django.core.management import CommandError

from planning.management.out_file import write_out

CONTENT = b"a paper " * 5_000


@contextmanager
def disk_that_takes(most):
    """No file may grow beyond that, for this process."""
    _soft, hard = before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@pytest.mark.parametrize("there", [b"the paper of yesterday", None])
def test_a_full_disk_is_told_and_keeps_what_was(tmp_path, there):
    out = tmp_path / "out.pdf"
    if there:
        out.write_bytes(there)
    with disk_that_takes(1_000), pytest.raises(CommandError, match="Cannot write") as refusal:
        write_out(out, CONTENT)
    assert refusal.value.returncode == 2
    assert [path.read_bytes() for path in tmp_path.iterdir()] == ([there] if there else [])


def test_the_next_one_takes_its_place_for_the_same_readers(tmp_path):
    out = tmp_path / "out.pdf"
    out.touch(mode=0o640)
    write_out(out, CONTENT)
    assert (out.read_bytes(), out.stat().st_mode & 0o777) == (CONTENT, 0o640)
    was = os.umask(0o027)
    try:
        write_out(tmp_path / "new.pdf", CONTENT)
    finally:
        os.umask(was)
    assert (tmp_path / "new.pdf").stat().st_mode & 0o777 == 0o640


def test_one_that_may_not_be_written_stays(tmp_path):
    """As the system has it for a program that runs, also against root."""
    out = Path(shutil.copy(shutil.which("sleep"), tmp_path))
    was = out.read_bytes()
    with subprocess.Popen([out, "60"]) as runs:
        with pytest.raises(CommandError, match="Cannot write"):
            write_out(out, CONTENT)
        runs.kill()
    assert out.read_bytes() == was


def test_a_link_goes_on_leading_to_the_file(tmp_path):
    (tmp_path / "link.pdf").symlink_to("out.pdf")
    write_out(tmp_path / "link.pdf", CONTENT)
    assert (tmp_path / "link.pdf").is_symlink()
    assert (tmp_path / "out.pdf").read_bytes() == CONTENT


def test_a_pipe_takes_it_as_it_comes_and_stays_a_pipe(tmp_path):
    pipe, read = tmp_path / "pipe", []
    os.mkfifo(pipe)
    reader = threading.Thread(target=lambda: read.append(pipe.read_bytes()))
    reader.start()
    write_out(pipe, CONTENT)
    reader.join(10)
    assert read == [CONTENT]
    assert pipe.is_fifo()


@pytest.mark.parametrize("name", ["", ".", "none/out.pdf", "x" * 300, "/dev/full"])
def test_where_nothing_can_be_written_it_says_so(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(CommandError, match="Cannot write"):
        write_out(Path(name), CONTENT)
