"""The container file, without a container: what it copies and runs is there, and comes up alone.

No engine runs in the tests (`.ci/container` runs one). What an engine would do is done by hand: its
COPY lines into a folder of their own, its libraries into an environment of their own, its last
command started there.
"""

import fnmatch
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from contextlib import contextmanager

import pytest

from studio import ask_health
from tests.server import ROOT, free_port, running

FILE = (ROOT / "studio" / "Containerfile").read_text()
IGNORED = (ROOT / "studio" / "Containerfile.dockerignore").read_text()
LINES = [
    line.split(maxsplit=1)
    for line in re.sub(r"\\\n\s*", "", FILE).splitlines()
    if line.strip() and not line.startswith("#")
]
LAST = LINES[max(i for i, (word, _) in enumerate(LINES) if word == "FROM") :]


def said(word, lines=LAST):
    return [rest for each, rest in lines if each == word]


def environment():
    pairs = (pair.split("=", 1) for rest in said("ENV") for pair in shlex.split(rest))
    return dict(pairs)


def copied():
    """Source and destination of what comes from the repository into the image."""
    return [rest.split() for rest in said("COPY") if "--from" not in rest]


def goes_in(path):
    """By the rules of the ignore file: the last pattern that matches decides."""
    inside = True
    for pattern in (line for line in IGNORED.splitlines() if line and not line.startswith("#")):
        bare = pattern.removeprefix("!").removeprefix("**/")
        parts = path.split("/")
        whole = any(fnmatch.fnmatch("/".join(parts[:n]), bare) for n in range(1, len(parts) + 1))
        deep = pattern.startswith("**/") and any(fnmatch.fnmatch(part, bare) for part in parts)
        if whole or deep:
            inside = pattern.startswith("!")
    return inside


def test_it_runs_as_a_user_without_rights_and_keeps_all_in_one_volume():
    (user,), (volume,) = said("USER"), said("VOLUME")
    assert int(user) > 0
    assert volume == environment()["FOREDAY_DATA"]
    made = next(rest for rest in said("RUN") if "useradd" in rest)
    assert f"--uid {user}" in made
    assert f"--owner {user} --mode 700 {volume}" in made
    order = [word for word, _ in LAST]
    assert order.index("USER") > max(i for i, word in enumerate(order) if word in ("RUN", "COPY"))


def test_its_user_can_read_what_is_copied_from_files_that_are_shut_to_others():
    """A clone made under umask 077 is copied as it is: found by `.ci/container`."""
    (opened,) = [i for i, (word, rest) in enumerate(LAST) if rest.startswith("chmod -R a+rX ")]
    assert set(LAST[opened][1].split()[3:]) == {source for source, _to in copied()}
    assert opened > max(i for i, (word, _) in enumerate(LAST) if word == "COPY")


def test_podman_is_told_to_keep_the_health_check():
    """The OCI format has none, and podman builds in it unless told otherwise."""
    assert said("HEALTHCHECK")
    assert "podman build --format docker " in FILE


def test_every_copied_path_is_there_and_is_let_in():
    for source, _to in copied():
        assert (ROOT / source).exists()
        assert goes_in(source)


@pytest.mark.parametrize(
    "path",
    [".data/secret_key", ".git/config", ".venv/bin/python", "tests/conftest.py", "uv.lock",
     ".env", "studio/__pycache__/settings.pyc", "planning/compute/x.pyc"],
)  # fmt: skip
def test_nothing_else_goes_in(path):
    assert not goes_in(path)


def test_the_packages_are_those_that_the_readme_names():
    (install,) = [rest for rest in said("RUN") if "apt-get install" in rest]
    words = install.split("install", 1)[1].split("&&")[0].split()
    packages = [word for word in words if not word.startswith("-")]
    for package in packages:
        assert re.search(rf"apt-get install [^`]*\b{package}\b", (ROOT / "README.md").read_text())


def test_the_tool_that_fetches_the_libraries_is_pinned_and_they_are_without_those_of_the_tests():
    runs = said("RUN", LINES)
    assert any(re.search(r"uv==\d+\.\d+\.\d+$", rest) for rest in runs)
    (sync,) = [rest for rest in runs if "uv sync" in rest]
    assert "--no-dev" in sync


def test_its_python_is_one_that_the_program_knows():
    version = (ROOT / ".python-version").read_text().strip()
    assert f"ARG BASE=python:{version}-slim" in FILE


def test_the_health_check_asks_the_port_that_is_served():
    (check,) = said("HEALTHCHECK")
    command = json.loads(check.split("CMD", 1)[1])
    assert command == ["python", "-m", "studio.ask_health"]
    assert said("EXPOSE") == [str(ask_health.PORT)]
    assert f"0.0.0.0:{ask_health.PORT}" in json.loads(said("CMD")[0])
    assert int(re.search(r"--timeout=(\d+)s", check)[1]) > ask_health.PATIENCE


@pytest.mark.parametrize(
    ("hosts", "name"),
    [("studio.example,other.example", "studio.example"), (".studio.example", "studio.example"),
     ("", "localhost"), ("*", "localhost")],
)  # fmt: skip
def test_it_asks_by_a_name_that_is_answered(monkeypatch, hosts, name):
    monkeypatch.setenv("DJANGO_ALLOWED_HOSTS", hosts)
    assert ask_health.name() == name


def test_where_nobody_answers_it_is_not_well():
    assert not ask_health.is_well(free_port())


def image(tmp_path):
    """The files as the image has them."""
    place = tmp_path / "image"
    place.mkdir()
    for source, to in copied():
        if (ROOT / source).is_dir():
            unwanted = shutil.ignore_patterns("__pycache__", "*.pyc")
            shutil.copytree(ROOT / source, place / to, ignore=unwanted)
        else:
            shutil.copy(ROOT / source, place / to)
    return place


@contextmanager
def comes_up(place, python, data):
    """Its last command, on another port: well, online, and gone when told to stop."""
    port = free_port()
    command = [part.replace(":8000", f":{port}") for part in json.loads(said("CMD")[0])]
    own = {name: value for name, value in environment().items() if name not in ("PATH", "HOME")}
    own |= {"FOREDAY_DATA": str(data), "DJANGO_ALLOWED_HOSTS": "studio.example"}
    kept = {name: os.environ[name] for name in ("HOME", "LANG") if name in os.environ}
    with running([python, *command[1:]], port, kept | own, place) as log:
        check = [python, "-m", "studio.ask_health", str(port)]
        tries = (subprocess.run(check, cwd=place, env=kept | own).returncode for _ in range(30))
        assert 0 in tries, log()  # an engine asks again, too, while the database is made
        pack = data / "pack.pdf"
        for args in (["demo", "--no-serve"], ["daypack", "demo-winter-hall", "--out", str(pack)]):
            command = [python, "manage.py", *args]
            subprocess.run(command, cwd=place, env=kept | own, check=True, capture_output=True)
        assert pack.read_bytes().startswith(b"%PDF-")
        yield


def test_what_is_copied_is_enough_to_serve(tmp_path):
    with comes_up(image(tmp_path), sys.executable, tmp_path / "data"):
        assert (tmp_path / "data" / "foreday.sqlite3").exists()


@pytest.mark.large
def test_its_libraries_are_enough_too(tmp_path):
    """`uv sync` as the file runs it, into an environment without any library of the tests."""
    place = image(tmp_path)
    for source in ("pyproject.toml", ".python-version"):
        shutil.copy(ROOT / source, place)
    (sync,) = [rest for rest in said("RUN", LINES) if "uv sync" in rest]
    command = [part for part in shlex.split(sync) if part not in ("${WITH}", "--no-managed-python")]
    environment = {k: v for k, v in os.environ.items() if k != "VIRTUAL_ENV"}
    subprocess.run(command, cwd=place, env=environment, check=True)
    python = place / ".venv" / "bin" / "python"
    for missing in ("pytest", "playwright", "babel", "boto3"):
        there = subprocess.run([python, "-c", f"import {missing}"], capture_output=True).returncode
        assert there != 0, missing
    with comes_up(place, str(python), tmp_path / "data"):
        pass
