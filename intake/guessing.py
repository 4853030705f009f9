"""Slowing down whoever tries secret links by the hundred.

No guess has a chance (a secret has 160 bits); the limit keeps a machine that tries all the same
from wearing the studio down (OWASP ASVS 5.0, 2.4.1). It counts misses only, for each address, and
never shuts out a browser that holds its cookie already. Each server process counts for itself.
"""

from __future__ import annotations

import logging

from django.core.cache import cache
from django.http import HttpRequest

from studio.asker import asker

MISSES = 50  # a family behind one address, each with a cut-off link, stays far below
SECONDS = 600
log = logging.getLogger("foreday.access")


def _key(request: HttpRequest) -> str:
    return f"link-misses:{asker(request)}"


def tries_too_often(request: HttpRequest) -> bool:
    return cache.get(_key(request), 0) >= MISSES


def count_miss(request: HttpRequest) -> None:
    """The ten minutes begin with the first miss; later ones do not move their end."""
    key = _key(request)
    log.warning("a link that opens nothing, from %s", request.META.get("REMOTE_ADDR", ""))
    if not cache.add(key, 1, SECONDS):
        try:
            cache.incr(key)
        except ValueError:  # it ran out between the two
            cache.add(key, 1, SECONDS)
