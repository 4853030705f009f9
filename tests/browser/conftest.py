"""A real server on its own data folder, and a real browser."""

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.own_place import environment_for

from .chromium import PATIENCE, chromium

ROOT = Path(__file__).parent.parent.parent


@dataclass(frozen=True)
class Site:
    url: str
    username: str
    password: str
    links: dict[str, str]
    data: Path

    def manage(self, *args):
        environment = environment_for(self.data)
        command = [sys.executable, "manage.py", *args]
        return subprocess.run(
            command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False
        )


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """`manage.py demo` as the README starts it, on a free port."""
    data = tmp_path_factory.mktemp("data")
    environment = environment_for(data)
    command = [sys.executable, "manage.py", "demo", "--port", "0", "--json"]
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
    ) as server:
        said = json.loads(server.stdout.readline())
        sign_in = said["sign_in"]
        yield Site(
            sign_in["url"].removesuffix("/sign-in"),
            sign_in["username"],
            sign_in["password"],
            {wedding["id"]: wedding["link"] for wedding in said["weddings"]},
            data,
        )
        server.terminate()


@pytest.fixture(scope="module")
def browser():
    with chromium() as browser:
        yield browser


@pytest.fixture
def page_of(browser):
    """Make a page in a context of its own; every console complaint fails the test."""
    contexts, complaints = [], []

    def make(width=1280, **options):
        context = browser.new_context(viewport={"width": width, "height": 800}, **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        page.on("console", lambda m: complaints.append(m.text) if m.type == "error" else None)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        return page

    yield make
    for context in contexts:
        context.close()
    assert complaints == []
