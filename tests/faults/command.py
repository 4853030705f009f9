"""A command of `manage.py` that is killed in the middle of its work, or is left to end it."""

import json
import os
import signal
import time
from contextlib import suppress
from pathlib import Path

from .killable import PATIENCE, is_there, said, wait_until


class Commands:
    """Runs commands by a process that forks; `said` is what the last of them said, and `took` how
    long it was there, in seconds."""

    def __init__(self, process, folder):
        self.process, self.told = process, Path(folder) / "said"

    def run(self, *words):
        """Let it end; gives how long it took, in seconds."""
        began = time.monotonic()
        pid = self._start(words)
        wait_until(lambda: not is_there(pid), f"{words[0]} does not end", 4 * PATIENCE)
        assert self.said.endswith("ended 0\n"), self.said
        return time.monotonic() - began

    def kill(self, after, *words):
        """SIGKILL after so many seconds; whether that was before its end."""
        began = time.monotonic()
        pid = self._start(words)
        while time.monotonic() < began + after and is_there(pid):
            time.sleep(0.002)
        self.took = time.monotonic() - began
        with suppress(ProcessLookupError):
            os.kill(pid, signal.SIGKILL)
            os.killpg(pid, signal.SIGKILL)
        wait_until(lambda: not is_there(pid), f"{words[0]} does not die")
        assert "Traceback" not in self.said, self.said
        return "ended" not in self.said

    def _start(self, words):
        self.told.unlink(missing_ok=True)
        self.process.stdin.write(json.dumps([str(self.told), *map(str, words)]) + "\n")
        self.process.stdin.flush()
        return int(said(self.process))

    @property
    def said(self):
        return self.told.read_text() if self.told.exists() else ""
