"""Who asks, as far as an address tells: for counting what somebody tries again and again."""

from __future__ import annotations

import ipaddress

from django.http import HttpRequest

HOME = 64  # bits: the least that a home is given (RFC 6177); it may use all addresses in them


def asker(request: HttpRequest) -> str:
    """An IPv4 address as it is, of an IPv6 address its home's network, so that nobody is somebody
    else by taking the next of their own 2^64."""
    address = request.META.get("REMOTE_ADDR", "")
    try:
        read = ipaddress.ip_address(address)
    except ValueError:  # a socket of this machine has none
        return address
    if read.version == 4:
        return address
    if read.ipv4_mapped:
        return str(read.ipv4_mapped)
    return str(ipaddress.ip_network((read, HOME), strict=False).network_address)
