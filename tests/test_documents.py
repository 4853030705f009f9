"""The documents stay true: what they name exists, and what exists is named."""

import re
from pathlib import Path

import pytest
from django.core.management import get_commands

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text()
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text()
SETTINGS = (ROOT / "studio" / "settings.py").read_text()
COMPUTE = sorted(
    path.name + ("/" if path.is_dir() else "")
    for path in (ROOT / "planning" / "compute").iterdir()
    if not path.name.startswith("__")
)


@pytest.mark.parametrize("name", COMPUTE)
def test_developers_know_every_part_of_the_computing(name):
    assert f"`{name}`" in DEVELOPERS


@pytest.mark.parametrize("path", sorted(set(re.findall(r"`([\w/]+/[\w/]*\.\w+)", DEVELOPERS))))
def test_every_file_that_developers_are_sent_to_is_there(path):
    assert (ROOT / path).exists()


def test_the_readme_opens_with_two_commands_that_set_everything_up():
    blocks = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)
    assert blocks[:2] == ["pip install uv && uv run manage.py demo\n", "uv run pytest\n"]


@pytest.mark.parametrize(
    "command",
    [
        "demo",
        "daypack",
        "calendar",
        "order",
        "timeline",
        "light",
        "bench",
        "serve",
        "backup",
        "restore",
        "erase",
        "retention",
    ],
)
def test_our_commands_are_in_the_readme(command):
    assert get_commands()[command] == "planning"
    assert f"uv run manage.py {command}" in README


@pytest.mark.parametrize("variable", re.findall(r"^(\w+) {2,}\S", SETTINGS, re.M))
def test_every_setting_is_in_the_readme(variable):
    assert f"`{variable}`" in README
