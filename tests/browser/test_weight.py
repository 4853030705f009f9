"""What a couple's phone has to fetch before it can show the first page."""

import pytest

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
