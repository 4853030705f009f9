"""The real server in a process of its own, as the documents say it is started."""

import os
import socket
import subprocess
import sys
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parent.parent
PATIENCE = 120  # seconds
BEHIND_A_PROXY = ["--proxy", "127.0.0.1"]
ONLINE = {
    "DJANGO_ALLOWED_HOSTS": "studio.example",
    "DJANGO_SECRET_KEY": "only-for-this-test-and-long-enough-for-every-check-0123456789-abc",
}


def free_port():
    """One that the system gives to nobody else while this process lives.

    Whoever allows its address to be used again, as servers do, may listen there, and come back.
    """
    free = socket.socket()
    free.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    free.bind(("127.0.0.1", 0))
    port = free.getsockname()[1]
    free.detach()  # stays open, as no object that would have to be closed
    return port


def manage(environment, *args):
    command = [sys.executable, "manage.py", *args]
    run = subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, text=True, timeout=PATIENCE
    )
    assert run.returncode == 0, run.stderr
    return run.stdout


def is_open(port):
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


@contextmanager
def running(command, port, environment=None, folder=ROOT):
    """A server until the block ends; gives a function that tells its log so far."""
    with (
        tempfile.TemporaryFile() as log,
        subprocess.Popen(command, cwd=folder, env=environment, stdout=log, stderr=log) as server,
    ):

        def told():
            return os.pread(log.fileno(), os.fstat(log.fileno()).st_size, 0).decode()

        try:
            until = time.monotonic() + PATIENCE  # of a busy machine, on which it migrates first
            while not is_open(port) and server.poll() is None and time.monotonic() < until:
                time.sleep(0.1)
            assert is_open(port), told()
            yield told
        finally:
            server.terminate()
            try:
                server.wait(timeout=60)
            except subprocess.TimeoutExpired:
                server.kill()
                raise


@contextmanager
def serving(environment, *flags):
    """`manage.py serve` on any free port; gives its address, and a function that tells its log."""
    port = free_port()
    command = [sys.executable, "manage.py", "serve", "--listen", f"127.0.0.1:{port}", *flags]
    with running(command, port, environment) as log:
        yield f"http://127.0.0.1:{port}", log
