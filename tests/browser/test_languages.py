"""The couple's pages on the narrowest phone: in longer words, right to left, in each language."""

import json
import subprocess
import sys

import pytest
from django.conf import settings
from playwright.sync_api import expect

from intake.steps import STEPS
from tests.own_place import environment_for
from tests.pseudo import LONG, MIRRORED, write_locale

from .conftest import ROOT

pytestmark = pytest.mark.xdist_group("browser")

FULL = "demo-two-days"
NARROW = 320  # CSS pixels: WCAG 2.2, success criterion 1.4.10
PAGES = ["", "read-through", "agreed", "step/groups/paste"]
PAGES += [f"step/{step.slug}" for step in STEPS]
LANGUAGES = [code for code, _name in settings.LANGUAGES]
# What stands over an edge, or is cut off by the box it is in; hidden words and boxes apart.
WRONG = """(width) => [...document.querySelectorAll("body *")].filter((element) => {
  if (!element.checkVisibility() || element.closest(".visually-hidden, .skip")) return false;
  const box = element.getBoundingClientRect();
  if (!box.width) return false;
  const holds = !element.matches("input, select, textarea, datalist *, option");
  const cut = holds && element.clientWidth && element.scrollWidth > element.clientWidth + 1;
  return box.left < -1 || box.right > width + 1 || cut;
}).map((element) => `${element.className}: ${element.textContent.slice(0, 40)}`)"""
# Choices that do not fit into their closed list (Chromium's arrow takes about 1.2em).
CUT_CHOICES = """() => [...document.querySelectorAll("main select")].flatMap((select) => {
  const style = getComputedStyle(select);
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const [before, after, size] = [style.paddingLeft, style.paddingRight, style.fontSize]
    .map(parseFloat);
  const room = select.clientWidth - before - after - 1.2 * size;
  return [...select.options].filter(({ text }) => pen.measureText(text).width > room)
    .map(({ text }) => text);
})"""


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The demo, with the two pseudo-languages beside the real ones."""
    locale = tmp_path_factory.mktemp("locale")
    write_locale(locale)
    environment = environment_for(
        tmp_path_factory.mktemp("data"),
        FOREDAY_PSEUDO=str(locale),
        DJANGO_SETTINGS_MODULE="tests.pseudo_settings",
    )
    command = [sys.executable, "manage.py", "demo", "--port", "0", "--json"]
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
    ) as server:
        weddings = json.loads(server.stdout.readline())["weddings"]
        yield {wedding["id"]: wedding["link"] for wedding in weddings}
        server.terminate()


@pytest.fixture
def phone(site, page_of):
    def make(language, wedding=FULL, **options):
        page = page_of(width=NARROW, **options)
        page.goto(site[wedding])
        choose(page, language)
        return page

    return make


def choose(page, language):
    button = page.locator(f"footer li[lang={language}] button")
    if button.count():
        button.click()
    expect(page.locator("html")).to_have_attribute("lang", language)


@pytest.mark.parametrize("language", [LONG, MIRRORED, *LANGUAGES])
def test_nothing_runs_over_the_edge_of_a_narrow_phone(phone, language):
    page = phone(language)
    home = page.url
    for address in PAGES:
        page.goto(home + address)
        expect(page.locator("html")).to_have_attribute("lang", language)
        assert page.evaluate("document.documentElement.scrollWidth") == NARROW, address
        assert page.evaluate(WRONG, NARROW) == [], address
        if language in LANGUAGES:
            assert page.evaluate(CUT_CHOICES) == [], address


@pytest.mark.parametrize("language", [LONG, MIRRORED])
def test_errors_do_not_run_over_the_edge(phone, language):
    page = phone(language, java_script_enabled=False)
    page.goto(f"{page.url}step/day")
    page.locator("input[name$=-date]").first.fill("x" * 80)
    page.locator("input[name$=-at]").first.fill("")
    page.locator("main .press").last.click()
    expect(page.locator("#errors")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") == NARROW
    assert page.evaluate(WRONG, NARROW) == []


def edges(page, selector):
    """The distance of the first such element from its row's start and end, in CSS pixels."""
    return page.locator(selector).first.evaluate(
        "(e) => { const b = e.getBoundingClientRect(); return [b.left, innerWidth - b.right]; }"
    )


def test_pages_from_right_to_left_are_mirrored(phone):
    page = phone(MIRRORED)
    assert page.locator("html").get_attribute("dir") == "rtl"
    title, mark = edges(page, ".step-title"), edges(page, ".step-mark")
    assert mark[0] < title[0]  # the mark stands at the left, the title at the right
    assert title[1] == pytest.approx(edges(page, "h1")[1], abs=1)
    page.goto(f"{page.url}step/care")
    assert edges(page, ".tick input")[0] > edges(page, ".tick label")[0]
    page.locator("select").first.select_option("")
    page.locator("main .press").last.click()
    borders = page.locator(".wrong").first.evaluate(
        "(e) => [getComputedStyle(e).borderLeftWidth, getComputedStyle(e).borderRightWidth]"
    )
    assert borders == ["0px", "4px"]
    bullets = page.locator("#errors ul").evaluate(
        "(e) => [getComputedStyle(e).paddingLeft, getComputedStyle(e).paddingRight]"
    )
    assert bullets == ["0px", "34px"]  # 2rem
    skip = page.locator(".skip")
    skip.focus()
    assert edges(page, ".skip")[1] < 40


@pytest.mark.parametrize(
    ("language", "few", "many"),
    [("pl", "3 grupy, razem mniej więcej 8 minut", "5 grup, razem mniej więcej 13 minut"),
     ("de", "3 Gruppen, insgesamt etwa 8 Minuten", "5 Gruppen, insgesamt etwa 13 Minuten")],
)  # fmt: skip
def test_the_live_count_has_the_plurals_of_the_language(phone, language, few, many):
    page = phone(language, "demo-far-hillside")
    page.goto(f"{page.url}step/groups")
    tally = page.locator(".tally")
    page.locator("textarea").first.fill("Ana")
    expect(tally).to_contain_text(
        {"pl": "1 grupa, mniej więcej 3 minuty", "de": "1 Gruppe"}[language]
    )
    for count in range(2, 6):
        page.locator("[data-add=groups]").click()
        page.locator("textarea").nth(count - 1).fill("Ana")
        if count in (3, 5):
            expect(tally).to_contain_text(few if count == 3 else many)
    expect(page.locator(".said")).to_contain_text({"pl": "Zanotowano o", "de": "Um "}[language])
    page.reload()
    expect(tally).to_contain_text(many)  # the server counts in the same words
    page.locator("button[value=forget]").click()


@pytest.mark.parametrize("js", [True, False])
def test_changing_the_language_on_a_step_keeps_what_is_typed(phone, js):
    page = phone("fr", "demo-far-hillside", java_script_enabled=js)
    page.goto(f"{page.url}step/photographs")
    box = page.locator("input[name$=-text]").first
    box.fill("Les ânes dans le pré")
    choose(page, "pl")
    expect(page.get_by_role("heading", level=1)).to_have_text("Zdjęcia, o których marzycie")
    expect(box).to_have_value("Les ânes dans le pré")
    page.locator("button[value=forget]").click()
    expect(box).to_have_value("")
