"""From where a couple's link can be opened: this computer, one's own network, or anywhere."""

from __future__ import annotations

from urllib.parse import urlsplit

from django.conf import settings
from django.http import HttpRequest

LOOPBACK = {"localhost", "127.0.0.1", "::1"}


def reached_by(request: HttpRequest) -> str:
    """Scheme, name and port of a link to send, without a path.

    Where the photographer sits at the machine itself, so that no password crosses the network, the
    couple's phone still needs the name by which the network knows it.
    """
    site = f"{request.scheme}://{request.get_host()}"
    parts = urlsplit(site)
    if settings.HOME_HOSTS and parts.hostname in LOOPBACK:
        port = f":{parts.port}" if parts.port else ""
        return f"{request.scheme}://{settings.HOME_HOSTS[0]}{port}"
    return site


def reach_of(url: str) -> str:
    """`here`, `home` or `anywhere`."""
    host = urlsplit(url).hostname or ""
    if host in LOOPBACK:
        return "here"
    return "home" if host in {each.strip("[]") for each in settings.HOME_HOSTS} else "anywhere"
