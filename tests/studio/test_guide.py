"""The guide to going online names settings, commands and files that there are."""

import configparser
import re
import shlex

import pytest
from django.core.management import get_commands, load_command_class

from tests.server import ROOT

GUIDE = (ROOT / "studio" / "online.md").read_text()
README = (ROOT / "README.md").read_text()


def blocks(kind):
    return re.findall(rf"```{kind}\n(.*?)```", re.sub(r"(?m)^ {3}", "", GUIDE), re.DOTALL)


SHELL = re.sub(r"\\\n\s*", "", "\n".join(blocks("sh")))
SETTINGS, UNIT = blocks("ini")
COMMANDS = re.findall(r"manage\.py (\S+)([^&|;\n]*)", SHELL + "\n" + UNIT)


def test_the_readme_leads_to_it():
    assert "(studio/online.md)" in README


@pytest.mark.parametrize(
    "name", sorted(set(re.findall(r"\b(?:FOREDAY|DJANGO|DATABASE)_[A-Z_]+\b", GUIDE)))
)
def test_every_setting_in_it_is_one_of_ours(name):
    assert f"`{name}`" in README


@pytest.mark.parametrize(("name", "flags"), COMMANDS)
def test_every_command_in_it_takes_what_it_is_given(name, flags):
    command = load_command_class(get_commands()[name], name)
    command.create_parser("manage.py", name).parse_args(shlex.split(flags))


def test_it_shows_commands():
    assert {name for name, _ in COMMANDS} >= {"serve", "createsuperuser", "check", "backup"}


def test_the_service_runs_what_there_is_with_the_settings_of_the_guide():
    unit = configparser.ConfigParser(delimiters="=", strict=True)
    unit.optionxform = str
    unit.read_string(UNIT)
    service = unit["Service"]
    folder = service["WorkingDirectory"]
    assert f"git clone ADDRESS-OF-THE-REPOSITORY {folder}\n" in SHELL
    assert service["ExecStart"].startswith(f"{folder}/.venv/bin/python manage.py serve ")
    assert f"`{service['EnvironmentFile']}`" in GUIDE
    assert f"useradd --system --home-dir /var/lib/{service['StateDirectory']}" in SHELL
    assert f"FOREDAY_DATA=/var/lib/{service['StateDirectory']}\n" in SETTINGS
    assert service["User"] in SHELL
    assert service["InaccessiblePaths"] == f"-{folder}/.git"  # OWASP ASVS 5.0, 13.4.1


def test_the_service_goes_on_trying_while_its_database_is_not_up():
    """systemd gives up after five starts within ten seconds (systemd.unit, StartLimitBurst)."""
    assert int(UNIT.split("RestartSec=")[1].split()[0]) * 5 > 10
    assert "postgresql.service" in UNIT.split("After=")[1].splitlines()[0]


def test_the_container_is_run_with_its_port_for_this_machine_alone():
    (run,) = [line for line in SHELL.splitlines() if line.startswith("docker run --detach")]
    words = shlex.split(run)
    assert words[words.index("--publish") + 1].startswith("127.0.0.1:")
    volume = words[words.index("--volume") + 1].split(":")[1]
    assert f"VOLUME {volume}\n" in (ROOT / "studio" / "Containerfile").read_text()


def test_the_lines_that_are_tried_in_a_real_container_are_in_it():
    script = (ROOT / ".ci" / "container").read_text()
    tried = re.findall(r'(?m)^words "(.*)"', script)
    assert len(tried) >= 3
    for words in tried:
        assert f"docker {words}" in SHELL


def test_links_within_it_lead_somewhere():
    headings = {re.sub(r"[^a-z0-9 -]", "", line.lower()).strip().replace(" ", "-")
                for line in re.findall(r"(?m)^#+ (.*)$", GUIDE)}  # fmt: skip
    for link in re.findall(r"\]\(#([^)]+)\)", GUIDE):
        assert link in headings
