"""What a large form gets where the disk has no room for it to wait: an answer, and no hanging up.

waitress lets a body over 512 kB wait in a temporary file. Where that cannot be written, the rest is
read and thrown away, since a browser listens only when it has sent everything.
"""

from __future__ import annotations

import io

from waitress.parser import HTTPRequestParser
from waitress.receiver import FixedStreamReceiver

WORDS = (
    "<!doctype html><html lang='en-gb'><meta charset='utf-8'><title>No room</title>"
    "<h1>There is no room for this just now</h1>"
    "<p>The disk is full where files wait. Go back, and send it again later: nothing of what you "
    "sent was kept, and nothing that was kept before is lost.</p>"
)


class NoRoom:
    """As waitress has its errors; Foreday itself, and so the reader's language, is not asked."""

    def to_response(self, _ident: str | None = None) -> tuple[str, list[tuple[str, str]], bytes]:
        headers = [("Content-Type", "text/html; charset=utf-8"), ("Cache-Control", "no-store")]
        return "503 Service Unavailable", headers, WORDS.encode()


class Nowhere:
    """A buffer that keeps nothing."""

    def append(self, data: bytes) -> None:
        pass

    def __len__(self) -> int:
        return 0

    def getfile(self) -> io.BytesIO:
        return io.BytesIO()

    def close(self) -> None:
        pass


class Parser(HTTPRequestParser):
    lacks_room = False

    def received(self, data: bytes) -> int:
        try:
            consumed = super().received(data)
        except OSError:
            if not isinstance(self.body_rcv, FixedStreamReceiver):  # nobody knows how much comes
                self.error, self.completed = NoRoom(), True
                return len(data)
            self.body_rcv.buf.close()
            self.body_rcv.buf, self.lacks_room = Nowhere(), True
            consumed = super().received(data)
        if self.completed and self.lacks_room:
            self.error = NoRoom()
        return consumed
