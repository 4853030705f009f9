"""axe-core finds nothing on any page: as it starts, filled and refused, narrow and wide, by day and
by night."""

import pytest
from axe_playwright_python.sync_playwright import Axe

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

LOOKS = [(320, "dark"), (320, "light"), (1280, "light"), (1280, "dark")]


@pytest.fixture(scope="module", params=LOOKS, ids=lambda look: f"{look[0]}-{look[1]}")
def looking(request, site, browser):
    """A page of that width and colour scheme; the check itself needs scripts of its own."""
    width, scheme = request.param
    context = browser.new_context(
        viewport={"width": width, "height": 800}, color_scheme=scheme, bypass_csp=True
    )
    yield context.new_page()
    context.close()


def violations(page):
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    found = Axe().run(page).response["violations"]
    return [(each["id"], each["nodes"][0]["html"][:200]) for each in found]


@pytest.mark.parametrize("wedding", [FILLED, BEGUN, CHANGED])
def test_what_a_couple_sees(site, looking, wedding):
    looking.goto(site.links[wedding])
    for path in COUPLES:
        looking.goto(f"{site.url}/q/{wedding}/{path}")
        assert violations(looking) == [], path


def test_what_a_couple_sees_when_something_cannot_be_kept(site, looking):
    refused = set()
    for slug, _answer in refused_steps(looking, site):
        if looking.title().startswith("Error:"):
            refused.add(slug)
        assert violations(looking) == [], slug
    assert len(refused) >= 3


def test_what_the_photographer_sees(site, looking):
    looking.goto(f"{site.url}/sign-in")
    assert violations(looking) == []
    sign_in(looking, site)
    for path in [*STUDIOS, *(f"w/{FILLED}/{page}" for page in WEDDINGS)]:
        looking.goto(f"{site.url}/{path}")
        assert violations(looking) == [], path
    for link in sheet_links(looking, site):
        looking.goto(link)
        assert violations(looking) == [], looking.title()
    answers_without_a_place(looking, site)
    assert looking.locator("#taken-out").count() == 1
    assert violations(looking) == []
