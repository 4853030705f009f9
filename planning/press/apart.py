"""Drawing in a process of its own: a heavy paper blocks no other page, and its memory comes back.

Each is forked from a server that has WeasyPrint loaded already, so that none pays for that.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import cache
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.context import BaseContext

from .draw import Job, PangoMissingError, TooLongError, draw

SECONDS = 60  # for one paper, waiting for others included; 40 pages take a tenth of it
MEMORY = 2 * 1024**3  # bytes of address space, of which a pack of 40 pages takes a quarter
AT_ONCE = 2
BEHIND = 10  # niceness: somebody waits for a paper, but more wait for a page
ROOM = threading.BoundedSemaphore(AT_ONCE)


class NotDrawnError(Exception):
    """It took too long or too much, and was stopped."""


@cache
def context() -> BaseContext:
    if sys.platform == "win32":
        return multiprocessing.get_context("spawn")
    forks = multiprocessing.get_context("forkserver")
    forks.set_forkserver_preload(["__main__", "planning.press.warm"])
    return forks


def draw_apart(job: Job, seconds: float = SECONDS) -> bytes:
    """As `draw`; raises NotDrawnError too."""
    if not ROOM.acquire(timeout=seconds):
        raise NotDrawnError
    try:
        done = _drawn(job, seconds)
    finally:
        ROOM.release()
    if isinstance(done, Exception):
        raise done
    return done


def _drawn(job: Job, seconds: float) -> bytes | Exception:
    ours, theirs = context().Pipe(duplex=False)
    process = context().Process(target=_work, args=(job, theirs, seconds), daemon=True)
    with _unheard_ctrl_c():
        process.start()
    theirs.close()
    try:
        return ours.recv() if ours.poll(seconds) else NotDrawnError()
    except EOFError:  # the system stopped it, or Pango did
        return NotDrawnError()
    finally:
        ours.close()
        process.kill()
        process.join()
        process.close()


@contextmanager
def _unheard_ctrl_c() -> Iterator[None]:
    """A terminal sends it to every process; ours ends those that it has started, without a word."""
    if not hasattr(signal, "pthread_sigmask"):  # Windows
        yield
        return
    resource_tracker.ensure_running()  # it would unblock again what is blocked here
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _work(job: Job, answer: Connection, seconds: float) -> None:
    hold_back(seconds)
    with suppress(BrokenPipeError):  # whoever asked has gone
        answer.send(_drawn_here(job))


def _drawn_here(job: Job) -> bytes | Exception:
    try:
        return draw(job)
    except (PangoMissingError, TooLongError) as error:
        return error
    except MemoryError:
        return NotDrawnError()


def hold_back(seconds: float) -> None:
    """Draw behind those who answer pages, and let the system stop this process where it takes too
    much; Windows has no such limits."""
    if hasattr(os, "nice"):
        os.nice(BEHIND)
    try:
        import resource
    except ImportError:
        return
    cpu = int(seconds) + 1
    resource.setrlimit(resource.RLIMIT_CPU, (cpu, cpu))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    if sys.platform == "linux":
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
