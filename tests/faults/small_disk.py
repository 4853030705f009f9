"""A small disk that can be full, or take nothing, for real: a tmpfs, which root may mount."""

import os
import subprocess
import tempfile
from contextlib import contextmanager

import pytest

LINUX = "needs root on Linux, to mount a small tmpfs"


class Disk:
    def __init__(self, folder):
        self.folder = folder

    @contextmanager
    def full(self):
        """Not a byte is left until the block ends."""
        filler = self.folder / "filler"
        with filler.open("wb", buffering=0) as file:
            for size in (1024 * 1024, 4096, 1):
                try:
                    while file.write(bytes(size)) == size:
                        pass
                except OSError:
                    continue
        try:
            yield
        finally:
            filler.unlink()

    @contextmanager
    def read_only(self):
        """Whatever is opened from now on can be read and no more, until the block ends."""
        folder = str(self.folder)
        with tempfile.TemporaryDirectory() as locked:
            mount("--bind", folder, locked)
            mount("-o", "remount,bind,ro", locked)
            mount("--bind", locked, folder)  # over the one that can be written, from one moment on
            try:
                yield
            finally:
                for each in (folder, locked):
                    subprocess.run(["umount", "--lazy", each], check=True)


def mount(*args):
    subprocess.run(["mount", *args], check=True)


@contextmanager
def small_disk(folder, megabytes=16):
    """An empty disk at that folder, gone afterwards. Skips where nobody may mount one.

    In CI, where root is there, it must be possible.
    """
    command = ["mount", "-t", "tmpfs", "-o", f"size={megabytes}m,mode=0755", "tmpfs", str(folder)]
    if not hasattr(os, "getuid") or os.getuid() != 0:
        pytest.skip(LINUX)
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode and not os.environ.get("CI"):
        pytest.skip(f"{LINUX}: {done.stderr.strip()}")
    assert done.returncode == 0, done.stderr
    try:
        yield Disk(folder)
    finally:
        subprocess.run(["umount", "--lazy", str(folder)], check=True)
