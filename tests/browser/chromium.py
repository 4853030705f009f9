"""Chromium as Debian ships it, driven by Playwright. A missing browser is said, never hidden."""

import os
import shutil
import sys
from contextlib import contextmanager
from ctypes.util import find_library

import pytest
from playwright.sync_api import expect, sync_playwright

PATIENCE = 30_000  # milliseconds, for whatever a page is to show on a busy machine
expect.set_options(timeout=PATIENCE)
MISSING = (
    "The browser tests need Chromium, and its driver libatomic. On Debian or Ubuntu: "
    "apt-get install chromium libatomic1 (then run them again; .ci/run installs both itself)."
)
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def find_chromium():
    return shutil.which("chromium") or shutil.which("chromium-browser")


@contextmanager
def chromium(*more):
    path = find_chromium()
    lacks_driver = sys.platform == "linux" and find_library("atomic") is None
    if path is None or lacks_driver:
        # On CI a missing browser is a failure: nothing may be skipped there.
        (pytest.fail if os.environ.get("CI") else pytest.skip)(MISSING)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=[*FLAGS, *more])
        yield browser
        browser.close()
