"""`manage.py demo`: an invented season to look around in, served on this machine only."""

from __future__ import annotations

import json
import re
import secrets
import socket
from typing import Any

from axes.utils import reset
from django.contrib.auth import get_user_model
from django.core.management import CommandError, CommandParser, call_command
from django.urls import reverse
from django.utils import timezone

from intake.links import link_path
from intake.models import Wedding
from planning.demo.load import is_strange, load_season
from planning.demo.pictures import hang_pictures
from planning.management.one_line import OneLineCommand
from planning.serving import make_server
from studio.member_models import Member, Role

HOST = "127.0.0.1"
ACCOUNT = "marigold"
READABLE = "abcdefghjkmnpqrstuvwxyz23456789"  # no letter that looks like another


class Command(OneLineCommand):
    help = "Make an invented season, print how to sign in and the couples' links, and serve it."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="make and print, no more")
        parser.add_argument("--port", default="8000", help="0 takes any free one (default: 8000)")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *args: Any, **options: Any) -> None:
        port = port_number(options["port"])
        server = None
        if options["no_serve"]:
            port = port or free_port()
        else:  # before anything is made: a taken port should change nothing
            server = listen(port)
            port = server.effective_port
        report = make_demo(f"http://{HOST}:{port}")
        self.stdout.write(json.dumps(report) if options["json"] else as_text(report))
        self.stdout.flush()
        if server:
            if not options["json"]:
                self.stdout.write("\nOpen until you press Ctrl-C.")
                self.stdout.flush()
            server.run()


def port_number(text: str | int) -> int:
    port = int(text) if re.fullmatch("[0-9]{1,5}", str(text)) else -1
    if not 0 <= port <= 65535:
        raise CommandError(f"--port {text}: give a number from 0 to 65535.", returncode=2)
    return port


def free_port() -> int:
    with socket.socket() as free:
        free.bind((HOST, 0))
        return free.getsockname()[1]


def listen(port: int) -> Any:
    """A waitress server that already holds its port."""
    try:
        return make_server(host=HOST, port=port)
    except OSError as error:
        raise CommandError(
            f"Port {port} cannot be used ({error.strerror}). Choose another with --port, "
            "for example --port 8001.",
            returncode=2,
        ) from None


def make_demo(site: str) -> dict[str, Any]:
    """Database, season and account; what is printed about them."""
    call_command("migrate", verbosity=0, interactive=False)
    if is_strange():
        raise CommandError(
            "This database holds weddings that are not of the demo, and invented ones must not "
            "be mixed with them. Set FOREDAY_DATA to another folder.",
            returncode=2,
        )
    weddings = load_season(timezone.localdate())
    hang_pictures()
    return {
        "sign_in": {
            "url": site + reverse("login"),
            "username": ACCOUNT,
            "password": new_password(),
        },
        "weddings": [entry(wedding, site) for wedding in weddings],
    }


def new_password() -> str:
    """A fresh random password for the demo's account, about 79 bits; it is kept nowhere else."""
    password = "-".join("".join(secrets.choice(READABLE) for _ in range(4)) for _ in range(4))
    user, _ = get_user_model().objects.get_or_create(username=ACCOUNT)
    user.set_password(password)
    user.is_active = True
    user.save()
    Member.objects.update_or_create(user=user, defaults={"role": Role.OWNER})
    reset(username=ACCOUNT)  # wrong guesses at the password of another run lock nobody out
    return password


def entry(wedding: Wedding, site: str) -> dict[str, str | None]:
    dates = wedding.dates
    return {
        "id": wedding.public_id,
        "names": wedding.names,
        "date": f"{dates[0]:%Y-%m-%d}" if dates else None,
        "link": site + link_path(wedding),
    }


def as_text(report: dict[str, Any]) -> str:
    sign_in = report["sign_in"]
    lines = [
        "An invented season: nobody in it is real.",
        "",
        f"Sign in   {sign_in['url']}",
        f"Name      {sign_in['username']}",
        f"Password  {sign_in['password']}",
        "",
        "The couples' private links",
    ]
    for each in report["weddings"]:
        lines += [f"  {each['date'] or 'no date'}  {each['names']}", f"    {each['link']}"]
    return "\n".join(lines)
