"""Servers that die in the middle of their work, and are there again at once."""

import os
import select
import signal
import subprocess
import sys
import time
from contextlib import contextmanager, suppress

from tests.server import ROOT, free_port, is_open

PATIENCE = 30  # seconds, for anything


def wait_until(done, what, patience=PATIENCE):
    until = time.monotonic() + patience
    while not done():
        assert time.monotonic() < until, what
        time.sleep(0.005)


def is_there(pid):
    return os.path.exists(f"/proc/{pid}")


class Killable:
    """One port's server: `start` and `kill` take turns; the address stays the same."""

    def __init__(self, process):
        self.process, self.port, self.group = process, free_port(), None
        self.address = f"http://127.0.0.1:{self.port}"

    def start(self):
        self.process.stdin.write(f"{self.port}\n")
        self.process.stdin.flush()
        self.group = int(said(self.process))
        wait_until(lambda: is_open(self.port), "the server does not come back")

    def kill(self):
        """SIGKILL for the server, and for whatever it has started."""
        if self.group:
            with suppress(ProcessLookupError):
                os.killpg(self.group, signal.SIGKILL)
            wait_until(lambda: not is_there(self.group), "the server does not die")
        self.group = None


def said(process, patience=PATIENCE):
    ready, _, _ = select.select([process.stdout], [], [], patience)
    assert ready, "nothing is said"
    return process.stdout.readline().strip()


@contextmanager
def forking(environment, *what):
    """The process of forks.py, when it has loaded everything."""
    command = [sys.executable, "-m", "tests.faults.forks", *what]
    pipe = subprocess.PIPE
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, text=True, stdin=pipe, stdout=pipe
    ) as process:
        try:
            assert said(process, 4 * PATIENCE) == "ready"  # everything is loaded by then
            yield process
        finally:
            process.kill()


@contextmanager
def killable(environment, count=1):
    """As many servers as wanted, none of them started, on the place of an environment."""
    with forking(environment) as process:
        servers = [Killable(process) for _ in range(count)]
        try:
            yield servers
        finally:
            for server in servers:
                server.kill()
