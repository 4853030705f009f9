"""The day on a phone: by its own clock, without a script, without a network, under one thumb."""

import re
from datetime import UTC, datetime

import pytest
from playwright.sync_api import expect

from .pages import FILLED, sheet_links, sign_in

pytestmark = pytest.mark.xdist_group("browser")
PHONE = "/w/demo-orchard-barn/phone"
# Words of which none can be broken, in the place of every name.
LONG = """document.querySelectorAll(".title, .where, dd, h3, .calls [dir], .tel").forEach(
  (each) => { each.textContent = "Llanfairpwllgwyngyllgogerychwyrndrobwllll".repeat(2); })"""


@pytest.fixture
def at(site, page_of):
    """The photographer's page so many minutes after the ceremony begins."""

    def make(minutes, **options):
        page = page_of(360, **options)
        sign_in(page, site)
        page.goto(site.url + PHONE)
        vows = page.locator(".hours.mine > .ceremony").first
        start = int(vows.get_attribute("data-from"))
        page.clock.install(time=datetime.fromtimestamp(start + 60 * minutes, UTC))
        page.goto(site.url + PHONE)
        return page, vows

    return make


@pytest.mark.parametrize("zone", ["Europe/London", "Asia/Tokyo"])
def test_now_and_next_come_from_the_phones_own_clock(at, zone):
    page, vows = at(1, timezone_id=zone)
    expect(page.locator("[data-part=on] .title")).to_have_text(vows.locator(".title").inner_text())
    expect(vows).to_have_attribute("aria-current", "time")
    coming = page.locator(".hours.mine > [aria-current] ~ [data-from]").first
    expect(page.locator("[data-part=next] .clock")).to_have_text(
        coming.locator(".clock").inner_text()
    )
    page.clock.run_for(24 * 3600_000)
    expect(page.locator("#now")).to_be_hidden()


def test_on_another_day_there_is_no_now(at):
    page, _vows = at(-3 * 24 * 60)
    expect(page.locator("#now")).to_be_hidden()
    expect(page.locator(".hours.mine")).to_be_visible()


def test_without_a_script_the_whole_day_is_there(site, page_of):
    page = page_of(320, java_script_enabled=False)
    sign_in(page, site)
    page.goto(site.url + PHONE)
    for part in ("#day", "#groups", "#calls", "#places"):
        expect(page.locator(part)).to_be_visible()
    expect(page.locator("#now")).to_be_hidden()


def test_kept_on_the_phone_it_opens_in_a_cellar_and_goes_with_the_sign_in(site, page_of):
    page = page_of(360)
    sign_in(page, site)
    page.goto(site.url + PHONE)
    with page.expect_navigation():  # what is left half loaded is not kept
        page.get_by_role("link", name="Keep it for twelve hours").click()
    kept = page.url
    page.goto(f"{site.url}/w/demo-orchard-barn/day")
    page.context.set_offline(True)
    page.goto(kept)
    expect(page.locator("#groups")).to_be_visible()
    page.context.set_offline(False)
    page.goto(f"{site.url}/w/demo-orchard-barn/day")
    with page.expect_navigation():
        page.get_by_role("button", name="Sign out").click()
    page.goto(kept)
    assert "/sign-in" in page.url


@pytest.fixture
def asked_again(site, page_of):
    """The page, looked at again long after: what it asks then and later is answered so."""

    def make(*answers):
        page, waiting = page_of(360), list(answers)
        sign_in(page, site)
        with page.expect_response(lambda reply: reply.request.resource_type == "fetch"):
            page.goto(site.url + PHONE)
        expect(page.locator("#newer")).to_be_hidden()
        page.route(re.compile("/phone$"), lambda route: waiting.pop(0)(route))
        page.evaluate("[self.later, Date.now] = [9e15, () => self.later]")
        look_again(page)
        return page

    return make


def look_again(page):
    page.evaluate("self.later += 1e6; document.dispatchEvent(new Event('visibilitychange'))")


def another(route):
    page = '<main id="main" data-mark="another"></main>'
    route.fulfill(body=page, content_type="text/html")


def test_a_plan_that_has_changed_since_is_offered(asked_again):
    page = asked_again(another)
    expect(page.locator("#newer")).to_be_visible()
    page.unroute_all()
    page.locator("#newer button").click()
    expect(page.locator("#newer")).to_be_hidden()


def test_an_answer_that_is_no_plan_does_not_take_the_offer_back(asked_again):
    page = asked_again(another, lambda route: route.fulfill(body="", content_type="text/html"))
    expect(page.locator("#newer")).to_be_visible()
    with page.expect_response(re.compile("/phone$")):
        look_again(page)
    page.wait_for_timeout(100)
    expect(page.locator("#newer")).to_be_visible()


def test_an_answer_that_is_overtaken_does_not_take_the_offer_back(asked_again):
    late = []
    page = asked_again(late.append, another)
    look_again(page)
    expect(page.locator("#newer")).to_be_visible()
    with page.expect_response(re.compile("/phone$")):
        late[0].continue_()
    page.wait_for_timeout(100)
    expect(page.locator("#newer")).to_be_visible()


@pytest.mark.parametrize(
    ("width", "scheme"), [(320, "dark"), (360, "light"), (768, "light"), (1280, "dark")]
)
def test_everything_fits_and_can_be_hit_by_a_thumb(site, page_of, width, scheme):
    """44 CSS pixels is the target size of WCAG 2.2, 2.5.5 (AAA)."""
    page = page_of(width, color_scheme=scheme)
    sign_in(page, site)
    for address in (f"{site.url}{PHONE}", *sheet_links(page, site)):
        page.goto(address)
        page.evaluate("document.querySelectorAll('details').forEach((each) => each.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        boxes = page.locator(".jumps a, .tel[href], .turns .tick, summary")
        heights = boxes.evaluate_all(
            "(all) => all.map((each) => each.getBoundingClientRect().height)"
        )
        assert min(heights) >= 44
        page.evaluate(LONG)
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_whoever_has_a_link_needs_no_account(site, page_of):
    page = page_of(360)
    sign_in(page, site)
    links = sheet_links(page, site)
    assert len(links) > 1
    for link in links:
        theirs = page_of(360)
        theirs.goto(link)
        assert re.fullmatch(rf"{site.url}/sheet/\w+", theirs.url)
        expect(theirs.locator("main")).to_contain_text("This link is for you alone")
    assert FILLED in page.url
