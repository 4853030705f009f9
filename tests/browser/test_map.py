"""The map's page by keyboard and with JavaScript off: nothing is taken that nobody pressed."""

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")


def open_map(page, site, spot):
    """The map of a wedding with one place, put on `spot` by keyboard; returns its box."""
    sign_in(page, site)
    page.goto(f"{site.url}/w/demo-winter-hall/map")
    box = page.get_by_label("Where on the map").first
    box.fill(spot)
    box.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("Kept.")
    return page.get_by_label("Where on the map").first


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])
def test_enter_keeps_the_page_and_only_the_button_takes_a_zone(site, page_of, javascript):
    page = page_of(java_script_enabled=javascript)
    take = page.get_by_role("button", name="Take Europe/Paris for the wedding")
    box = open_map(page, site, "48.8584, 2.2945")
    expect(take).to_be_visible()
    box.press("Enter")
    expect(page.get_by_role("status")).to_have_text("Kept.")
    expect(take).to_be_visible()
    take.click()
    expect(page.get_by_role("status")).to_contain_text("now goes by Europe/Paris")
    expect(take).to_have_count(0)
    back = page.get_by_role("button", name="Take Europe/London for the wedding")
    page.get_by_label("Where on the map").first.fill("51.5, -0.12")
    page.get_by_role("button", name="Keep").last.click()
    back.click()
    expect(page.get_by_role("status")).to_contain_text("now goes by Europe/London")


def test_a_swapped_pair_is_mended_by_its_button_on_a_phone_without_scripts(site, page_of):
    page = page_of(width=360, java_script_enabled=False)
    box = open_map(page, site, "-0.12, 51.5")
    page.get_by_role("button", name="Put 51.5, -0.12").click()
    expect(box).to_have_value("51.5, -0.12")
    assert page.evaluate("document.documentElement.scrollWidth") == 360
