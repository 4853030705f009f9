"""The Day screen by mouse, by keyboard, and with JavaScript off."""

import re

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")
TIGHT, CALM = "demo-two-villages", "demo-orchard-barn"
BOTH = pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])


def open_day(page, site, wedding):
    sign_in(page, site)
    page.goto(f"{site.url}/w/{wedding}/day")


def row(page, title):
    return page.locator("tr[data-key]").filter(has=page.get_by_text(title, exact=True)).first


def settle(page, title):
    found = row(page, title)
    found.get_by_role("link", name="change").click()
    expect(row(page, title).get_by_role("link", name="Close")).to_be_visible()
    return row(page, title)


def heard(page, javascript):
    """The live region that a screen reader speaks."""
    return page.locator("#said" if javascript else ".messages")


def as_usual(page, title):
    settle(page, title).get_by_role("button", name="As usual again").click()


@BOTH
def test_a_day_that_does_not_fit_is_mended_by_one_press_and_can_be_taken_back(
    site, page_of, javascript
):
    page = page_of(java_script_enabled=javascript)
    open_day(page, site, TIGHT)
    verdict = page.locator(".verdict")
    expect(verdict).to_contain_text("minutes short")
    page.get_by_role("button", name=re.compile("^Ask for Dinner at")).click()
    expect(heard(page, javascript)).to_contain_text("Fits")
    expect(page.locator(".verdict")).not_to_contain_text("minutes short")
    as_usual(page, "Dinner")
    expect(page.locator(".verdict")).to_contain_text("minutes short")


@BOTH
def test_minutes_change_in_place_and_the_answer_says_what_moved(site, page_of, javascript):
    page = page_of(java_script_enabled=javascript)
    open_day(page, site, CALM)
    portraits = settle(page, "Portraits of the two")
    portraits.get_by_label("likely").first.fill("40")
    portraits.get_by_role("button", name="Keep", exact=False).last.click()
    expect(heard(page, javascript)).to_contain_text("Kept: Portraits of the two.")
    expect(row(page, "Portraits of the two")).to_contain_text("40 minutes")
    expect(row(page, "Portraits of the two")).to_contain_text("settled")
    if javascript:
        page.reload()
    as_usual(page, "Portraits of the two")
    expect(row(page, "Portraits of the two")).to_contain_text("25 minutes")


@BOTH
def test_a_slip_is_told_beside_its_box_with_everything_typed_still_there(site, page_of, javascript):
    page = page_of(java_script_enabled=javascript)
    open_day(page, site, CALM)
    portraits = settle(page, "Portraits of the two")
    portraits.get_by_label("least").first.fill("50")
    portraits.get_by_label("likely").first.fill("20")
    portraits.get_by_role("button", name="Keep").last.click()
    portraits = row(page, "Portraits of the two")
    expect(portraits).to_contain_text("The least cannot be more than the likely minutes.")
    expect(portraits.get_by_label("least").first).to_have_value("50")
    expect(portraits.get_by_label("likely").first).to_have_value("20")
    expect(portraits).to_contain_text("25 minutes")


def test_what_is_typed_elsewhere_stays_when_another_block_is_moved(site, page_of):
    page = page_of()
    open_day(page, site, CALM)
    portraits = settle(page, "Portraits of the two")
    portraits.get_by_label("likely").first.fill("33")
    row(page, "Congratulations").get_by_role("button", name="down").click()
    expect(heard(page, True)).to_contain_text("now follows")
    expect(row(page, "Portraits of the two").get_by_label("likely").first).to_have_value("33")
    page.get_by_role("button", name="Usual order").click()
    expect(heard(page, True)).to_contain_text("usual order again")


def test_the_keyboard_alone_moves_a_block_and_leaves_one_out(site, page_of):
    page = page_of()
    open_day(page, site, CALM)
    row(page, "The room, before guests").get_by_role("button", name="up").focus()
    page.keyboard.press("Alt+ArrowUp")
    expect(heard(page, True)).to_contain_text("“The room, before guests” now follows")
    expect(row(page, "The room, before guests").get_by_role("button", name="up")).to_be_focused()
    page.get_by_role("button", name="Usual order").focus()
    page.keyboard.press("Enter")
    expect(heard(page, True)).to_contain_text("usual order again")
    row(page, "The room, before guests").get_by_role("button", name="leave out").focus()
    page.keyboard.press("Enter")
    expect(heard(page, True)).to_contain_text("is left out")
    page.get_by_role("button", name="put back").click()
    expect(heard(page, True)).to_contain_text("is back in the day")


def test_no_page_of_the_day_is_wider_than_a_phone(site, page_of):
    page = page_of()
    page.set_viewport_size({"width": 320, "height": 640})
    open_day(page, site, TIGHT)
    settle(page, "Group photographs")
    assert page.evaluate("document.documentElement.scrollWidth") == 320
