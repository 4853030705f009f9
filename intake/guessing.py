"""Slowing down whoever tries secret links by the hundred.

No guess has a chance (a secret has 160 bits); the limit keeps a machine that tries all the same
from wearing the studio down (OWASP ASVS 5.0, 2.4.1). It counts misses only, for each address, and
never shuts out a browser that holds its cookie already. Each server process counts for itself.
"""

from __future__ import annotations

import logging
import time
from contextlib import suppress

from django.core.cache import cache
from django.http import HttpRequest

from studio.asker import asker

MISSES = 50  # a family behind one address, each with a cut-off link, stays far below
SECONDS = 600
log = logging.getLogger("foreday.access")


def _key(request: HttpRequest, what: str) -> str:
    return f"link-misses:{what}:{asker(request)}"


def _misses(request: HttpRequest) -> int:
    """Those of the ten minutes since the first, by a clock that nobody sets."""
    first = cache.get(_key(request, "first"))
    if first is None or time.monotonic() - first > SECONDS:
        return 0
    return cache.get(_key(request, "count"), 0)


def tries_too_often(request: HttpRequest) -> bool:
    return _misses(request) >= MISSES


def count_miss(request: HttpRequest) -> None:
    """The ten minutes begin with the first miss; later ones do not move their end."""
    log.warning("a link that opens nothing, from %s", request.META.get("REMOTE_ADDR", ""))
    count = _key(request, "count")
    if not _misses(request):
        cache.set(_key(request, "first"), time.monotonic(), SECONDS)
        cache.set(count, 0, SECONDS)
    with suppress(ValueError):  # it ran out between the two
        cache.incr(count)
