"""The version is written in one place, and what it changed is told."""

import tomllib
from itertools import pairwise
from pathlib import Path

from django.urls import reverse

from studio.versions import VERSION, VERSIONS
from tests.page import said

ROOT = Path(__file__).parent.parent.parent


def as_numbers(version):
    return tuple(int(part) for part in version.number.split("."))


def test_the_package_has_the_version_of_the_program():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    assert project["version"] == VERSION


def test_versions_rise_and_each_says_what_it_changed():
    for newer, older in pairwise(VERSIONS):
        assert as_numbers(newer) > as_numbers(older)
        assert newer.since >= older.since
    assert all(len(as_numbers(each)) == 3 and each.changes for each in VERSIONS)


def test_studio_leads_to_what_changed(photographer):
    studio = photographer.get(reverse("studio"))
    assert f"Foreday {VERSION}. What changed" in said(studio)
    assert f'href="{reverse("versions")}"' in studio.content.decode()
    page = said(photographer.get(reverse("versions")))
    for version in VERSIONS:
        assert version.number in page
        assert all(str(change) in page for change in version.changes)
