"""How late are we: by the phone's clock, in flight mode, in other zones, with JavaScript off."""

from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")
LATE = "/w/demo-orchard-barn/late"


def plan(page):
    return page.locator("[data-part=plan]")


def press(page):
    page.locator("[data-part=press]").click()


@pytest.fixture
def late_by(site, page_of):
    """The page as a phone shows it so many minutes after the ceremony should have ended."""

    def make(minutes, **options):
        page = page_of(360, **options)
        sign_in(page, site)
        page.goto(site.url + LATE)
        vows = page.locator(".ending", has=page.locator("summary", has_text="ceremony"))
        end = int(vows.get_attribute("data-end"))
        page.clock.install(time=datetime.fromtimestamp(end + 60 * minutes, UTC))
        page.goto(site.url + LATE)
        return page, vows

    return make


@pytest.mark.parametrize("zone", ["Europe/London", "Asia/Tokyo", "Pacific/Honolulu"])
def test_one_press_in_flight_mode_shows_the_plan_of_the_next_step(late_by, zone):
    page, vows = late_by(7, timezone_id=zone)
    expect(page.locator("[data-part=title]")).to_contain_text("ceremony")
    page.context.set_offline(True)
    press(page)
    expect(plan(page)).to_contain_text("7 min late. Planned as for 15 minutes")
    fifteen = vows.locator("[data-late='15']")
    assert plan(page).locator(".cuts").inner_text() == fifteen.locator(".cuts").text_content()
    ends = datetime.strptime(vows.locator(".clock").first.text_content(), "%H:%M")
    then = f"{ends + timedelta(minutes=7):%H:%M}"
    assert plan(page).locator(".clock").inner_text() == then


def test_with_a_network_the_plan_is_to_the_minute(late_by):
    page, _vows = late_by(7)
    press(page)
    expect(plan(page)).to_contain_text("7 minutes late")
    expect(plan(page)).not_to_contain_text("Planned as for")


def test_later_than_the_page_knows_is_told(late_by):
    page, _vows = late_by(100)
    page.context.set_offline(True)
    while "ceremony" not in page.locator("[data-part=title]").inner_text():
        page.get_by_role("button", name="The one before").click()
    press(page)
    expect(plan(page)).to_contain_text("That is later than this page knows. For 90 minutes:")


def test_once_late_the_next_block_is_expected_late(late_by):
    page, _vows = late_by(18)
    if "ceremony" not in page.locator("[data-part=title]").inner_text():
        page.get_by_role("button", name="The one before").click()
    press(page)
    page.clock.fast_forward("16:00")
    expect(page.locator("[data-part=title]")).to_have_text("Congratulations")
    assert plan(page).inner_text() == ""


def test_before_the_day_there_is_nothing_to_press(late_by):
    page, _vows = late_by(-3 * 24 * 60)
    expect(page.locator("#now")).to_be_hidden()
    expect(page.get_by_text("It is not today")).to_be_visible()


def test_without_javascript_a_form_is_answered_and_every_end_opens(site, page_of):
    page = page_of(360, java_script_enabled=False)
    sign_in(page, site)
    page.goto(site.url + LATE)
    page.get_by_label("Minutes late").fill("37")
    page.get_by_label("What ends late").select_option(index=4)
    page.get_by_role("button", name="What now?").click()
    expect(page.locator("#answer")).to_contain_text("37 minutes late")
    end = page.locator(".ending").nth(4)
    end.locator("summary").press("Enter")
    expect(end.locator("[data-late='90']")).to_be_visible()


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_runs_over_the_edge_and_every_press_is_large(late_by, width):
    page, _vows = late_by(7)
    page.set_viewport_size({"width": width, "height": 800})
    press(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for press_ in page.locator("main :is(button, summary, select, input:not([type=hidden]))").all():
        assert press_.bounding_box()["height"] >= 48
    root = page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")
    for clock in page.locator(".clock:visible").all():
        size = clock.evaluate("each => parseFloat(getComputedStyle(each).fontSize)")
        assert size >= 2 * root
