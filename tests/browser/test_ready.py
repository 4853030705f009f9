"""Ready and Bag: ticked off on a phone with one thumb, scripts off too, and by two at once."""

import re

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")
READY, BAG = "/w/demo-winter-hall/ready", "/w/demo-winter-hall/bag"
THUMB = 44  # CSS pixels: WCAG 2.2, success criterion 2.5.5, Target Size (Enhanced)


@pytest.fixture
def listed(site, page_of):
    """The list as one of the studio sees it."""

    def make(width=360, address=READY, **options):
        page = page_of(width, **options)
        sign_in(page, site)
        page.goto(site.url + address)
        return page

    return make


def line(page, title):
    return page.locator(".line", has=page.get_by_text(title, exact=True))


def done(page, title):
    return line(page, title).locator(".line-do").get_by_role("button")


def back(page, title):
    page.locator("details", has_text="settled").locator("summary").last.click()
    line(page, title).get_by_role("button", name="Take it back").click()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no-scripts"])
def test_a_thumb_ticks_a_line_and_takes_it_back(listed, scripts):
    page = listed(has_touch=True, is_mobile=True, java_script_enabled=scripts)
    done(page, "Raw recording on, both slots writing").tap()
    expect(page.get_by_role("status")).to_contain_text(
        "Raw recording on, both slots writing: done."
    )
    settled = page.locator("details", has_text="settled")
    settled.locator("summary").last.tap()
    expect(line(page, "Raw recording on, both slots writing")).to_contain_text("Done: marigold,")
    line(page, "Raw recording on, both slots writing").get_by_role("button").tap()
    expect(done(page, "Raw recording on, both slots writing")).to_be_visible()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no-scripts"])
def test_a_thumb_packs_a_thing_and_takes_it_out(listed, scripts):
    page = listed(320, BAG, has_touch=True, is_mobile=True, java_script_enabled=scripts)
    things = page.locator(".packing button")
    thing, before = things.nth(4), things.all_inner_texts()
    for state, box in (("true", "☑"), ("false", "☐")):
        assert thing.bounding_box()["height"] >= THUMB
        thing.tap()
        expect(thing).to_have_attribute("aria-pressed", state)
        expect(thing).to_contain_text(box)
        for each in (thing, things.nth(5)):  # and the next one is under the thumb
            expect(each).to_be_in_viewport()
    assert things.all_inner_texts() == before


def test_the_next_line_is_under_the_thumb(listed):
    page = listed()
    done(page, "Beep and electronic sounds off").click()
    expect(line(page, "Bag packed and counted")).to_be_in_viewport()
    back(page, "Beep and electronic sounds off")


def test_two_phones_tick_at_once_and_nothing_is_lost(listed):
    one, other = listed(), listed(java_script_enabled=False)
    done(one, "Water and something to eat packed").click()
    done(other, "Clothes and shoes laid out, for rain too").click()
    done(other, "Alarm set, and a second one").click()
    expect(one.get_by_role("status")).to_contain_text("Water and something to eat packed: done.")
    one.reload()
    for title in (
        "Water and something to eat packed",
        "Clothes and shoes laid out, for rain too",
        "Alarm set, and a second one",
    ):
        one.locator("details", has_text="settled").last.evaluate("each => { each.open = true }")
        expect(line(one, title)).to_contain_text("Done: marigold,")
        expect(done(one, title)).to_have_count(0)


def test_a_note_typed_elsewhere_stays_where_it_is(listed):
    page = listed(java_script_enabled=False)
    line(page, "Bag packed and counted").locator("summary").click()
    line(page, "Bag packed and counted").get_by_label("Note").fill("spare strap")
    done(page, "Day pack printed, and on the phone").click()
    expect(line(page, "Bag packed and counted").get_by_label("Note")).to_have_value("spare strap")
    expect(page.get_by_role("status")).to_contain_text("not kept yet")
    line(page, "Bag packed and counted").get_by_label("Note").press("Enter")  # presses no button
    expect(line(page, "Bag packed and counted").get_by_label("Note")).to_have_value("spare strap")
    expect(page.get_by_role("status")).to_have_text(re.compile("not kept yet"))


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_runs_over_the_edge_and_every_button_is_for_a_thumb(listed, width):
    page = listed(width)
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    presses = page.locator(
        "main form :is(button:not(.visually-hidden), summary, input:not([type=hidden]))"
    ).all()
    assert len(presses) > 20
    for press in presses:
        box = press.bounding_box()
        assert box["height"] >= THUMB
        assert box["width"] >= THUMB


def test_on_paper_there_are_boxes_to_tick_and_nothing_to_press(listed):
    page = listed(1280)
    page.emulate_media(media="print")
    expect(page.get_by_text("Bag packed and counted", exact=True)).to_be_visible()
    expect(page.get_by_role("button", name="Done")).to_have_count(0)
    box = page.locator(".line-do").first
    assert box.evaluate("each => getComputedStyle(each).borderTopStyle") == "solid"
