"""kill -9 of a whole PostgreSQL: only of the throw-away one that .ci/with-postgres started."""

import os
import signal
import subprocess
from contextlib import suppress
from pathlib import Path

from .killable import PATIENCE, is_there, wait_until


def throwaway():
    """The folder of the PostgreSQL that .ci/with-postgres started for this run, or None."""
    home = os.environ.get("FOREDAY_THROWAWAY_POSTGRES")
    return Path(home) / "db" if home else None


def crash(folder):
    """Kill the postmaster and all its children at once, as when the machine loses its current, but
    for what the operating system still writes to the disk; and start it again, which recovers."""
    postmaster = int((folder / "postmaster.pid").read_text().split()[0])
    gone = [postmaster, *children(postmaster)]
    for pid in gone:
        with suppress(ProcessLookupError):
            os.kill(pid, signal.SIGKILL)
    wait_until(lambda: not any(is_there(pid) for pid in gone), "PostgreSQL does not die")
    command = [program(folder), "-D", str(folder), "-w", "-t", str(PATIENCE)]
    command += ["-l", str(folder.parent / "log"), "restart"]  # with the options it had
    quiet = subprocess.DEVNULL
    owner = folder.stat()
    user = {} if os.getuid() == owner.st_uid else {"user": owner.st_uid, "group": owner.st_gid}
    subprocess.run(
        command, cwd=folder, check=True, timeout=2 * PATIENCE, stdout=quiet, stderr=quiet, **user
    )


def program(folder):
    """pg_ctl, from beside the server that the folder was last served by."""
    server = (folder / "postmaster.opts").read_text().split()[0]
    return str(Path(server).with_name("pg_ctl"))


def children(parent):
    for path in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            pid, _, rest = path.read_text().partition(" (")
            if int(rest.rpartition(") ")[2].split()[1]) == parent:
                yield int(pid)
