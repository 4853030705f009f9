"""The Nu HTML checker, which speaks for the HTML standard, finds no error on any page."""

import json
import subprocess

import pytest

from tests.outside import outside

from .pages import (
    BEGUN,
    CHANGED,
    COUPLES,
    FILLED,
    STUDIOS,
    WEDDINGS,
    answers_without_a_place,
    refused_steps,
    sheet_links,
    sign_in,
)

pytestmark = pytest.mark.xdist_group("browser")


def complaints(folder):
    """What the checker says of every page in a folder, one line each."""
    jar = outside("node_modules/vnu-jar/build/dist/vnu.jar", "java")
    command = ["java", "-jar", jar, "--format", "json", "--stdout", "--exit-zero-always", folder]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    said = json.loads(run.stdout)["messages"]
    return [
        f"{each['url'].rpartition('/')[2]}:{each.get('lastLine')}: {each['message']}"
        for each in said
        if each["type"] != "info" or each.get("subType") == "warning"
    ]


@pytest.fixture
def kept(tmp_path):
    """Keeps the HTML of an answer under a name of its own."""

    def keep(name, answer):
        name = name.strip("/").replace("/", "-") or "first"
        (tmp_path / f"{name}.html").write_bytes(answer.body())

    keep.folder = tmp_path
    return keep


def test_the_couples_pages(site, page_of, kept):
    page = page_of()
    for wedding in (FILLED, BEGUN, CHANGED):
        page.goto(site.links[wedding])
        for path in COUPLES:
            kept(f"{wedding}-{path}", page.goto(f"{site.url}/q/{wedding}/{path}"))
    for slug, answer in refused_steps(page, site):
        kept(f"refused-{slug}", answer)
    assert "\n".join(complaints(kept.folder)) == ""


def test_the_photographers_pages(site, page_of, kept):
    page = page_of()
    sign_in(page, site)
    for path in [*STUDIOS, *(f"w/{FILLED}/{each}" for each in WEDDINGS)]:
        kept(path, page.goto(f"{site.url}/{path}"))
    for number, link in enumerate(sheet_links(page, site)):
        kept(f"sheet-{number}", page.goto(link))
    kept("taken-out", answers_without_a_place(page, site))
    assert "\n".join(complaints(kept.folder)) == ""


def test_who_is_not_let_in(site, page_of, kept):
    page = page_of()
    for path in ("sign-in", "nothing", "q/nobody/wrong", "password/MQ/cut-off", "sheet/nobody/x"):
        kept(path, page.context.request.get(f"{site.url}/{path}"))
    assert "\n".join(complaints(kept.folder)) == ""


def test_the_checker_can_find_something(tmp_path):
    (tmp_path / "page.html").write_text("<!doctype html><title>x</title><p><div></p>")
    assert complaints(tmp_path)
