"""`python -m studio.ask_health`: exits with 0 while the server on this machine says it is well.

For a container's health check: without Django, since it runs twice a minute, and by the name to
which the server answers.
"""

from __future__ import annotations

import os
import sys
from http.client import HTTPConnection, HTTPException

PORT = 8000
PATIENCE = 8  # seconds


def name() -> str:
    """The first of the names in DJANGO_ALLOWED_HOSTS."""
    first = os.environ.get("DJANGO_ALLOWED_HOSTS", "").split(",")[0].strip().lstrip(".")
    return first if first not in ("", "*") else "localhost"


def is_well(port: int) -> bool:
    connection = HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
    try:
        connection.request("GET", "/health", headers={"Host": name()})
        return connection.getresponse().status == 200
    except (OSError, HTTPException):
        return False
    finally:
        connection.close()


if __name__ == "__main__":
    sys.exit(0 if is_well(int(sys.argv[1]) if len(sys.argv) > 1 else PORT) else 1)
