"""Pages that are sent whole: what is typed on them outlives a cut network and a closed page."""

import pytest
from playwright.sync_api import expect

from .chromium import PATIENCE

pytestmark = pytest.mark.xdist_group("browser")

WEDDING = "demo-winter-hall"  # has a summary to object to
WORDS = "Us + Aunt Odile: Rolf"
PAGES = [
    ("step/groups/paste", "Your list", "Make groups", "1 group was read"),
    ("agreed", "What is not right?", "Send this", "Sent. Your photographer"),
]
each_page = pytest.mark.parametrize(
    ("path", "label", "button", "done"), PAGES, ids=[page[0] for page in PAGES]
)
KEPT = "Object.keys(localStorage).filter((key) => key.startsWith('foreday-page:')).length"


@pytest.fixture
def phone(site, browser):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    context.set_default_timeout(PATIENCE)
    context.new_page().goto(site.links[WEDDING])
    yield context
    context.close()


def open_on(phone, site, path):
    page = phone.new_page()
    page.goto(f"{site.url}/q/{WEDDING}/{path}")
    return page


@each_page
def test_what_is_pressed_without_a_network_stays_and_can_be_sent_later(
    site, phone, path, label, button, done
):
    page = open_on(phone, site, path)
    page.get_by_label(label).fill(WORDS)
    phone.set_offline(True)
    page.get_by_role("button", name=button).click()
    expect(page.get_by_text("No connection. Your words stay")).to_be_visible()
    expect(page.get_by_label(label)).to_have_value(WORDS)
    phone.set_offline(False)
    page.get_by_role("button", name=button).click()
    expect(page.get_by_text(done)).to_be_visible()
    assert page.evaluate(KEPT) == 0


def test_what_was_typed_is_there_when_the_page_is_opened_again(site, phone):
    page = open_on(phone, site, "step/pictures")
    page.get_by_label("What you like about it").last.fill(WORDS)
    page.close()
    page = open_on(phone, site, "step/pictures")
    line = page.get_by_label("What you like about it").last
    expect(line).to_have_value(WORDS)
    expect(page.get_by_text("This is what you had typed here. It is not sent yet.")).to_be_visible()
    line.fill("")
    page.reload()
    expect(line).to_have_value("")


def test_words_sent_into_a_dead_network_are_there_when_it_is_back(site, phone):
    page = open_on(phone, site, "agreed")
    page.get_by_label("What is not right?").fill(WORDS)
    page.route("**/agreed", lambda route: route.abort())
    page.get_by_role("button", name="Send this").click()
    page.wait_for_url("chrome-error://**")
    page.unroute("**/agreed")
    page.goto(f"{site.url}/q/{WEDDING}/agreed")
    expect(page.get_by_label("What is not right?")).to_have_value(WORDS)
