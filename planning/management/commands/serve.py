"""`manage.py serve`: bring the database up to date, then serve until told to stop."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

from django.conf import settings
from django.core.management import CommandError, CommandParser

from planning.management.one_line import OneLineCommand
from planning.serving import behind, bring_up_to_date, is_address, make_server, refused, run

HERE = ("127.0.0.1:", "localhost:", "[::1]:")


class Command(OneLineCommand):
    help = "Bring the database up to date, then serve until told to stop."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--listen",
            default="127.0.0.1:8000",
            metavar="ADDRESS:PORT",
            help="0.0.0.0:8000 for all networks of this machine (default: 127.0.0.1:8000)",
        )
        parser.add_argument(
            "--proxy",
            metavar="ADDRESS",
            help="where the proxy that ends TLS asks from, such as 127.0.0.1; * believes anybody",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        listen, proxy = options["listen"], options["proxy"]
        check(listen, proxy)
        try:  # before anything is changed
            server = make_server(listen=listen, **behind(proxy))
        except (OSError, ValueError) as error:  # a port that is taken; a host that is none
            raise refused(listen, getattr(error, "strerror", None) or str(error)) from None
        bring_up_to_date()
        with suppress(OSError):  # into a log on a full disk: it is served all the same
            for line in where(listen, proxy):
                self.stdout.write(line)
            self.stdout.flush()
        run(server)


def check(listen: str, proxy: str | None) -> None:
    """What could not start, or would start and then answer nobody."""
    if not is_address(listen):
        raise refused(listen, "not as ADDRESS:PORT")
    if settings.ONLINE and proxy is None:
        raise CommandError(
            "DJANGO_ALLOWED_HOSTS means online, behind a proxy that ends TLS. Say where the proxy "
            "asks from, for example --proxy 127.0.0.1.",
            returncode=2,
        )
    if not (listen.startswith(HERE) or proxy or settings.HOME_HOSTS):
        raise CommandError(
            f"--listen {listen}: name the address by which phones reach this machine in "
            "FOREDAY_HOME_HOSTS, for example 192.168.1.20 (studio/online.md).",
            returncode=2,
        )


def where(listen: str, proxy: str | None) -> list[str]:
    """What to open, for whoever started it."""
    port = listen.rpartition(":")[2]
    lines = [] if settings.ONLINE or proxy else [f"Open http://127.0.0.1:{port} here."]
    if settings.HOME_HOSTS and not listen.startswith(HERE):
        lines.append(f"In your own network: http://{settings.HOME_HOSTS[0]}:{port}")
        lines.append("There everybody who shares the network could read along: studio/online.md.")
    return [*lines, "Open until you press Ctrl-C."] if lines else []
