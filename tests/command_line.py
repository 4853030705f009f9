"""A command as its shell would run it, in this process: manage.py, its streams and its exit."""

import io
import json
import os
import sys
from contextlib import ExitStack
from dataclasses import dataclass
from unittest.mock import patch

import django
from django.db import connections

import manage

JOINERS = "\u200c\u200d"


@dataclass(frozen=True)
class Ran:
    code: int
    out: str
    err: str


class Keyboard(io.TextIOWrapper):
    """Standard input with a person at it."""

    def isatty(self):
        return True


def run(*argv, stdin=b"", at_terminal=False):
    """Run `manage.py ARGV`; any exception but that of leaving passes through, as a traceback."""
    told = [io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _stream in range(2)]
    kind = Keyboard if at_terminal else io.TextIOWrapper
    streams = {"stdin": kind(io.BytesIO(stdin), "utf-8"), "stdout": told[0], "stderr": told[1]}
    with ExitStack() as until_done:
        until_done.callback(django.setup)  # the log speaks to where it spoke before
        until_done.enter_context(patch.dict(os.environ))
        until_done.enter_context(patch.object(sys, "path", [*sys.path]))
        until_done.enter_context(patch.multiple(sys, argv=["manage.py", *argv], **streams))
        # The test's own connection, with all that is in its transaction.
        until_done.enter_context(patch.object(connections, "close_all"))
        try:
            manage.main()
            code = 0
        except SystemExit as left:
            code = left.code or 0
    return Ran(code, *(stream.buffer.getvalue().decode() for stream in told))


def assert_promise(ran, argv, notes=False, tells_first=False):
    """2 and one line, or 0 and an answer, in JSON where that was asked for; nothing to obey."""
    assert ran.code in (0, 2), (argv, ran)
    for line in f"{ran.out}\n{ran.err}".split("\n"):
        assert all(c.isprintable() or c in JOINERS for c in line), (argv, line)
    assert "Traceback" not in ran.err, (argv, ran)
    if ran.code == 2:
        assert ran.err.endswith("\n"), (argv, ran)
        assert ran.err.count("\n") == 1, (argv, ran)
        assert len(ran.err) < 1_200, argv
        assert tells_first or not ran.out, (argv, ran)
    else:
        assert notes or not ran.err, (argv, ran)
        if "--json" in argv and not {"--help", "-h", "--version"} & set(argv):
            json.loads(ran.out, parse_constant=no_json)


def no_json(name):
    raise ValueError(f"{name} is no JSON")


def files_in(folder):
    """{path: content, or None for what has none}, followed into no link."""
    return {
        path.relative_to(folder).as_posix(): (
            path.read_bytes() if path.is_file() and not path.is_symlink() else None
        )
        for path in folder.rglob("*")
    }
