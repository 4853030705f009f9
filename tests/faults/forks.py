"""Run in a process of its own: the real server, again and again, without loading anything twice.

For each port that stands on standard input, a fork of this process serves there as `serve` does,
as the head of a process group of its own; its process id goes to standard output. It is up to
whoever asked to kill it.
"""

import logging
import os
import signal
import sys

import django


def load():
    """All that the first request would load, and no connection that a fork could inherit."""
    django.setup()
    from django.db import connections
    from django.test import Client

    from planning.serving import make_server

    Client(HTTP_HOST="127.0.0.1").get("/sign-in")
    connections.close_all()
    logging.getLogger("waitress.queue").setLevel("ERROR")  # eight at once is what we are here for
    return make_server


def main():
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the dead
    make_server = load()
    print("ready", flush=True)
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            os.setpgid(0, 0)
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            make_server(host="127.0.0.1", port=int(line)).run()
            os._exit(1)
        print(child, flush=True)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    main()
