"""The server itself, as `demo` and `serve` start it: waitress, in one process with threads."""

from __future__ import annotations

import os
import re
import signal
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import waitress
import waitress.channel
import waitress.server
from django.conf import settings
from django.core.management import CommandError, call_command
from django.db import connection

from planning.backup.begun import must_be_through
from planning.backup.make import tidy_up
from planning.no_room import Parser
from studio.wsgi import application

try:
    import fcntl
except ImportError:  # Windows, where one process serves
    fcntl = None

BODY = 256 * 1024 * 1024  # a whole set of pictures in one go
THREADS = 8
# Half a request sent, and silence: as many as these, and as long, before nobody else is heard.
CONNECTIONS, SILENCE, LOOK = 400, 60, 10  # the last two in seconds
ENDING = 8  # seconds; waitress gives what is being answered five
OURS = 7029  # the number of our lock in PostgreSQL


class Steady:
    """The clock by which waitress closes connections that nobody uses any more.

    By the machine's own it would close none for as long as that was set back, until they are too
    many to take another; and all of them at once where it was set forward.
    """

    time = staticmethod(time.monotonic)


waitress.server.time = waitress.channel.time = Steady
waitress.channel.HTTPChannel.parser_class = Parser


def make_server(**where: Any) -> Any:
    """A waitress server that holds its port already. Raises OSError where it cannot."""
    return waitress.create_server(
        application,
        threads=THREADS,
        max_request_body_size=BODY,
        connection_limit=CONNECTIONS,
        channel_timeout=SILENCE,
        cleanup_interval=LOOK,
        ident=None,
        **where,
    )


def behind(proxy: str | None) -> dict[str, Any]:
    """Whom to believe about who is asking, and how; from anybody else it is left out."""
    if proxy is None:
        return {}
    headers = {"x-forwarded-for", "x-forwarded-proto"}
    return {"trusted_proxy": proxy, "trusted_proxy_count": 1, "trusted_proxy_headers": headers}


def bring_up_to_date() -> None:
    """Migrate, unless it is done; a second process that starts meanwhile waits for the first."""
    must_be_through()
    with one_at_a_time():
        tidy_up()  # here, or a folder that another makes just now is taken before it is locked
        call_command("migrate", verbosity=0, interactive=False)


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """On PostgreSQL for every machine that shares it, else for every process on the folder."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_lock(%s)", [OURS])
            try:
                yield
            finally:
                cursor.execute("SELECT pg_advisory_unlock(%s)", [OURS])
    elif fcntl:
        handle = os.open(settings.DATA_DIR, os.O_RDONLY)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX)
            yield
        finally:
            os.close(handle)
    else:
        yield


def run(server: Any) -> None:
    """Serve until told to stop; what is being answered then has five seconds to end."""
    # As the first process of a container it would not hear this at all without a handler.
    signal.signal(signal.SIGTERM, stop)
    server.run()


def stop(_signal: int, _frame: object) -> None:
    """Leave in order; where that takes too long or the exception is lost on its way, leave."""
    late = threading.Timer(ENDING, os._exit, [0])
    late.daemon = True
    late.start()
    sys.exit(0)


def is_address(listen: str) -> bool:
    host, _colon, port = listen.rpartition(":")
    one = re.fullmatch(r"\S+", host)  # waitress takes several, and we look at the first alone
    is_number = re.fullmatch("[0-9]{1,5}", port)  # Python reads no number of 5,000 figures
    return bool(one and is_number and 0 < int(port) < 65536)


def refused(listen: str, why: str) -> CommandError:
    return CommandError(f"--listen {listen}: it cannot be used ({why}).", returncode=2)
