"""The Groups screen by mouse, by keyboard, and with JavaScript off; and what is heard of it."""

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")
DEMO = "demo-orchard-barn"


def open_groups(page, site):
    sign_in(page, site)
    page.goto(f"{site.url}/w/{DEMO}/groups")
    page.get_by_role("button", name="best order").click()
    expect(page.get_by_text("The order is now: best order").last).to_be_attached()
    if page.get_by_role("button", name="put back").count():
        page.get_by_role("button", name="put back").click()
    expect(page.locator("tr[data-key]")).to_have_count(8)
    return titles(page)


def titles(page):
    page.wait_for_load_state()  # the message stands above the table, and is there before it
    return page.locator("tr[data-key] .title").all_inner_texts()


def button(page, name, title):
    row = page.locator("tr[data-key]").filter(has=page.get_by_text(title, exact=True))
    return row.get_by_role("button", name=name).first


def heard(page, javascript):
    """The live region that a screen reader speaks."""
    return page.locator("#said" if javascript else ".messages")


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])
def test_buttons_move_a_group_and_say_where_it_is_now(site, page_of, javascript):
    page = page_of(java_script_enabled=javascript)
    before = open_groups(page, site)
    button(page, "down", before[1]).click()
    expect(heard(page, javascript)).to_contain_text(f"“{before[1]}” is now number 3 of 8")
    assert titles(page) == [before[0], before[2], before[1], *before[3:]]
    expect(page.get_by_role("button", name="by hand")).to_have_attribute("aria-pressed", "true")


def test_the_keyboard_alone_moves_a_group_and_keeps_the_focus_on_it(site, page_of):
    page = page_of()
    before = open_groups(page, site)
    button(page, "up", before[4]).focus()
    page.keyboard.press("Enter")
    expect(heard(page, True)).to_contain_text("is now number 4 of 8")
    expect(button(page, "up", before[4])).to_be_focused()
    page.keyboard.press("Alt+ArrowUp")
    expect(heard(page, True)).to_contain_text("is now number 3 of 8")
    assert titles(page)[2] == before[4]


def test_dragging_a_number_moves_its_row(site, page_of):
    page = page_of()
    before = open_groups(page, site)
    page.set_viewport_size({"width": 1280, "height": 2400})  # nothing scrolls under the pointer
    rows = page.locator("tr[data-key]")
    rows.nth(5).locator("td").first.drag_to(rows.nth(1).locator(".title"))
    expect(heard(page, True)).to_contain_text("is now number 2 of 8")
    assert titles(page)[1] == before[5]


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])
def test_a_group_is_left_out_and_put_back(site, page_of, javascript):
    page = page_of(java_script_enabled=javascript)
    before = open_groups(page, site)
    page.locator("tr[data-key]").last.locator("summary").click()
    page.locator("tr[data-key]").last.get_by_role("button", name="leave out").click()
    expect(heard(page, javascript)).to_contain_text("is left out")
    assert titles(page) == [title for title in before if title != before[-1]]
    page.get_by_role("button", name="put back").click()
    expect(heard(page, javascript)).to_contain_text("is back in the list")
    assert sorted(titles(page)) == sorted(before)


def test_the_order_reaches_the_calling_and_the_clock(site, page_of):
    page = page_of()
    open_groups(page, site)
    page.get_by_role("button", name="as the couple listed them").click()
    expect(heard(page, True)).to_contain_text("as the couple listed them")
    clock = page.locator("tr[data-key] td:nth-child(5) .big").all_inner_texts()
    assert clock == sorted(clock)
    assert len(clock) == 8


def test_what_an_act_changed_is_heard_with_its_guest_minutes(site, page_of):
    page = page_of()
    before = open_groups(page, site)
    button(page, "down", before[1]).click()
    expect(heard(page, True)).to_contain_text("guest-minutes of waiting. Best order")


def test_the_focus_goes_where_the_hand_was(site, page_of):
    page = page_of()
    before = open_groups(page, site)
    row = page.locator("tr[data-key]").filter(has=page.get_by_text(before[2], exact=True))
    row.locator("summary").click()
    field = row.get_by_label("Minutes")
    field.fill("4,5")
    field.press("Enter")
    expect(heard(page, True)).to_contain_text("takes 4.5 minutes")
    expect(row.get_by_label("Minutes")).to_be_focused()
    expect(row.get_by_label("Minutes")).to_have_value("4.5")
    row.get_by_label("Minutes").fill("many")
    row.get_by_label("Minutes").press("Enter")
    expect(heard(page, True)).to_contain_text("Error:")
    expect(row.get_by_label("Minutes")).to_have_value("many")
    row.get_by_label("Minutes").fill("")
    row.get_by_role("button", name="keep").click()
    expect(heard(page, True)).to_contain_text("the studio’s minutes again")
    expect(row.get_by_role("button", name="keep")).to_be_focused()
