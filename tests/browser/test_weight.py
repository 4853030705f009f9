"""What a browser fetches: how much before the first page shows, and from nobody but us."""

from urllib.parse import urlsplit

import pytest

from .pages import FILLED, sign_in

pytestmark = pytest.mark.xdist_group("browser")

LIMIT = 60_000  # bytes over the wire, headers and all: the design's own limit


@pytest.fixture
def wire(page_of):
    """A phone with nothing cached, and the bytes that each address cost it."""
    page = page_of(width=360)
    client = page.context.new_cdp_session(page)
    client.send("Network.enable")
    names, bytes_of = {}, {}
    client.on(
        "Network.responseReceived",
        lambda told: names.update({told["requestId"]: told["response"]["url"]}),
    )
    client.on(
        "Network.loadingFinished",
        lambda told: bytes_of.update({names[told["requestId"]]: told["encodedDataLength"]}),
    )
    return page, bytes_of


def test_the_first_page_of_the_questionnaire_is_light(site, wire):
    page, bytes_of = wire
    page.goto(site.links["demo-town-hall"], wait_until="networkidle")
    page.evaluate("document.fonts.ready")
    assert page.locator("ol.steps").is_visible()
    assert sum(bytes_of.values()) < LIMIT, bytes_of


def test_a_first_visit_straight_to_a_step_is_light(site, wire):
    page, bytes_of = wire
    page.goto(site.links["demo-town-hall"], wait_until="networkidle")
    step = page.locator("ol.steps a").first.get_attribute("href")
    client = page.context.new_cdp_session(page)
    client.send("Network.setCacheDisabled", {"cacheDisabled": True})
    client.send("Network.clearBrowserCache")
    bytes_of.clear()
    page.goto(site.url + step, wait_until="networkidle")
    page.evaluate("document.fonts.ready")
    assert sum(bytes_of.values()) < LIMIT, bytes_of


def test_no_page_fetches_anything_from_another_host(site, page_of):
    page, asked = page_of(), []
    page.context.on("request", lambda request: asked.append(request.url))
    page.goto(site.links[FILLED])
    for path in ("", "read-through", "step/groups", "step/pictures", "agreed"):
        page.goto(f"{site.url}/q/{FILLED}/{path}")
    sign_in(page, site)
    for path in ("answers", "meeting", "groups", "light", "day", "map", "papers", "link", "erase"):
        page.goto(f"{site.url}/w/{FILLED}/{path}")
    outside = {url for url in asked if urlsplit(url).scheme not in {"data", "blob"}}
    assert len(outside) > 20
    assert {urlsplit(url).netloc for url in outside} == {urlsplit(site.url).netloc}
