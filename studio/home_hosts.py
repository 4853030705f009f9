"""FOREDAY_HOME_HOSTS: names by which this machine answers in one's own network, without TLS.

Only names that cannot stand on the internet are taken, so that nobody serves couples openly there
by mistake.
"""

from __future__ import annotations

import re
from ipaddress import ip_address, ip_network

from django.core.exceptions import ImproperlyConfigured

OWN = [  # RFC 1918, RFC 4193
    ip_network(each) for each in ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "fc00::/7")
]
LABEL = r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?"
# A name without dots, .local (RFC 6762) or .home.arpa (RFC 8375).
NAME = re.compile(rf"{LABEL}(?:(?:\.{LABEL})*\.(?:local|home\.arpa))?", re.IGNORECASE)


def home_hosts(text: str) -> list[str]:
    """The names in a list with commas, as a browser sends them. Raises ImproperlyConfigured."""
    hosts = [host.strip().lower() for host in text.split(",") if host.strip()]
    for host in hosts:
        if not is_of_home(host):
            raise ImproperlyConfigured(
                f"FOREDAY_HOME_HOSTS: {host} is neither a private address, such as 192.168.1.20, "
                "nor a name that ends in .local. Names of the internet: DJANGO_ALLOWED_HOSTS."
            )
    return hosts


def is_of_home(host: str) -> bool:
    try:
        address = ip_address(host.removeprefix("[").removesuffix("]"))
    except ValueError:
        return host != "localhost" and bool(NAME.fullmatch(host)) and not host.isdigit()
    in_brackets = host.startswith("[") and host.endswith("]")
    if in_brackets != (address.version == 6):  # as in an address that a browser opens
        return False
    return any(address in each for each in OWN if each.version == address.version)
