"""Run in a process of its own: the real server or a command, again and again, loaded once.

For each port that stands on standard input, a fork of this process serves there as `serve` does;
for each list (JSON) of a file and the words of a command, it runs that command, whose words go to
the file, and at the end how it ended. Each is the head of a process group of its own; its process
id goes to standard output. It is up to whoever asked to kill it. FOREDAY_TEST_CLOCK names a file
by which their clock is wrong.
"""

import json
import logging
import os
import signal
import sys
import time
import traceback

import django


def go_by(name):
    """A clock that is ahead of the machine's by what stands in a file, in seconds."""
    import datetime

    from django.utils import timezone

    real, handle = time.time, os.open(name, os.O_RDONLY)
    time.time = lambda: real() + float(os.pread(handle, 40, 0))
    timezone.now = lambda: datetime.datetime.fromtimestamp(time.time(), datetime.UTC)


def load():
    """All that the first request would load, and no connection that a fork could inherit."""
    from django.db import connections
    from django.test import Client

    from planning.serving import make_server

    Client(HTTP_HOST="127.0.0.1").get("/sign-in")
    connections.close_all()
    logging.getLogger("waitress.queue").setLevel("ERROR")  # eight at once is what we are here for
    return make_server


def load_commands():
    """The same of the commands, without a look at the database, which may not be there yet."""
    from django.db import connections
    from django.urls import get_resolver

    from planning.management.commands import backup, migrate, restore

    connections.close_all()
    return get_resolver().url_patterns, backup, migrate, restore


def run_command(said, *words):
    from django.core.management import execute_from_command_line

    sys.stdout = sys.stderr = open(said, "w")  # noqa: SIM115 - as long as the process
    ended = 0
    try:
        execute_from_command_line(["manage.py", *words])
    except SystemExit as exit_:
        ended = exit_.code
    except BaseException:
        traceback.print_exc()
        ended = 1
    print("ended", ended or 0, flush=True)
    os._exit(0)


def main():
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the dead
    if name := os.environ.get("FOREDAY_TEST_CLOCK"):
        go_by(name)
    django.setup()
    make_server = load_commands() if "commands" in sys.argv else load()
    print("ready", flush=True)
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            os.setpgid(0, 0)
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            if line.startswith("["):
                run_command(*json.loads(line))
            make_server(host="127.0.0.1", port=int(line)).run()
            os._exit(1)
        print(child, flush=True)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    main()
