"""A couple answer everything and send it with the keyboard alone."""

import pytest
from playwright.sync_api import expect

from intake.steps import STEPS

pytestmark = pytest.mark.xdist_group("browser")

WEDDING = "demo-two-days"
MOST = 400  # presses of Tab on one page

# What can be pressed or typed into on this page, told by its place among them; a group of radio
# buttons is one stop. Closed <details> and blank rows in a <template> hold nothing to reach.
CONTROLS = """() => {
  const all = [...document.querySelectorAll("a[href], button, input, select, textarea, summary")];
  const seen = all.filter((each) => each.tabIndex >= 0 && !each.disabled
    && each.checkVisibility({ visibilityProperty: true }));
  const one = (each) => each.type !== "radio" || each.checked
    || (!seen.some((other) => other.name === each.name && other.checked)
      && seen.find((other) => other.name === each.name) === each);
  window.controls = seen.filter(one);
  return window.controls.length;
}"""
FOCUSED = "() => window.controls.indexOf(document.activeElement)"
SHOWN = """() => {
  const style = getComputedStyle(document.activeElement);
  return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
}"""


def tab_to(page, wanted):
    """Presses Tab until the focus is on what says or is called `wanted`."""
    for _ in range(MOST):
        page.keyboard.press("Tab")
        named = page.evaluate(
            "() => (document.activeElement.ariaLabel || document.activeElement.innerText || '')"
        )
        if named.strip().startswith(wanted):
            return
    raise AssertionError(f"Tab never came to {wanted}")


def walk(page):
    """Presses Tab through the whole page: every control is reached once, in order, and seen."""
    count = page.evaluate(CONTROLS)
    reached = []
    for _ in range(count):
        page.keyboard.press("Tab")
        reached.append(page.evaluate(FOCUSED))
        assert page.evaluate(SHOWN), page.evaluate("() => document.activeElement.outerHTML")
    assert reached == list(range(count)), page.url


def write(page, words):
    """Tab to the first large box and type at its beginning."""
    for _ in range(MOST):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.tagName") == "TEXTAREA":
            page.keyboard.press("Control+Home")
            page.keyboard.type(words)
            return
    raise AssertionError("Tab never came to a large box")


@pytest.mark.parametrize("javascript", [True, False], ids=["with JS", "JS off"])
def test_from_the_link_to_sent_by_keyboard_alone(site, page_of, javascript):
    page = page_of(width=375, java_script_enabled=javascript)
    page.set_default_timeout(30_000)
    page.goto(site.links[WEDDING])
    page.goto(f"{site.url}/q/{WEDDING}/")
    walk(page)
    for step in STEPS:
        page.goto(f"{site.url}/q/{WEDDING}/")
        title = page.locator(f"a[href$='/step/{step.slug}']").inner_text()
        tab_to(page, title.split("\n")[0])
        page.keyboard.press("Enter")
        page.wait_for_url(f"**/step/{step.slug}")
        walk(page)
        if step is STEPS[0]:
            write(page, "The river at dusk. ")
        tab_to(page, keep_word(page))
        page.keyboard.press("Enter")
        page.wait_for_url(f"**/q/{WEDDING}/")
    tab_to(page, send_word(page))
    page.keyboard.press("Enter")
    page.wait_for_url("**/read-through")
    walk(page)
    expect(page.get_by_text("The river at dusk.")).to_be_visible()
    tab_to(page, page.locator("form button.press").last.inner_text())
    page.keyboard.press("Enter")
    expect(page.locator(".messages")).to_be_visible()
    page.wait_for_url(f"**/q/{WEDDING}/")


def keep_word(page):
    return page.locator("form .act button.press").last.inner_text()


def send_word(page):
    return page.locator("a.press").last.inner_text()
