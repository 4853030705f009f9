"""Heavy work takes turns, and only so many wait for theirs: each who waits holds a thread, of which
the server has eight (planning/serving.py), and whoever wants a page needs one too."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager


class BusyError(Exception):
    """So many are waiting already that nobody else may: come again in a minute."""


class Turns:
    """`most` at work or waiting at once, and `each` of them for one of whom it is asked."""

    def __init__(self, most: int, each: int) -> None:
        self.most, self.each = most, each
        self._inside: Counter[str] = Counter()
        self._lock = threading.Lock()

    @contextmanager
    def one(self, whose: str) -> Iterator[None]:
        """Raises BusyError at once where there is no room."""
        with self._lock:
            if self._inside.total() >= self.most or self._inside[whose] >= self.each:
                raise BusyError
            self._inside[whose] += 1
        try:
            yield
        finally:
            with self._lock:
                self._inside[whose] -= 1
                self._inside += Counter()  # forgets whoever has none inside
