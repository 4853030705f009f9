"""Two phones, a tunnel and a server that dies: every word that was acknowledged is there."""

import json
import signal
import socket
import subprocess
import sys

import pytest
from playwright.sync_api import expect

from tests.own_place import environment_for

from .chromium import PATIENCE
from .conftest import ROOT
from .test_journey import keep, open_step

pytestmark = pytest.mark.xdist_group("browser")

HERS, HIS = "demo-far-hillside", "demo-winter-hall"
STEP = "Photographs you want"


class Server:
    """`manage.py demo` on one port and one data folder, killed and started again at will."""

    def __init__(self, data):
        self.data = data
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.start()

    def start(self):
        command = [sys.executable, "manage.py", "demo", "--port", str(self.port), "--json"]
        environment = environment_for(self.data)
        self.process = subprocess.Popen(
            command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
        )
        said = json.loads(self.process.stdout.readline())
        self.links = {wedding["id"]: wedding["link"] for wedding in said["weddings"]}

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.communicate()


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    server = Server(tmp_path_factory.mktemp("couple"))
    yield server
    server.kill()


@pytest.fixture
def phone(browser):
    """Make a phone: what its pages complain of fails the test, a cut network apart."""
    phones, complaints = [], []

    def make(**options):
        context = browser.new_context(viewport={"width": 375, "height": 800}, **options)
        phones.append(context)
        context.set_default_timeout(PATIENCE)
        context.on("weberror", lambda error: complaints.append(str(error.error)))
        return context

    yield make
    for context in phones:
        context.close()
    assert complaints == []


def open_on(context, link, step=STEP):
    page = context.new_page()
    page.goto(link)
    open_step(page, step)
    return page


def box(page):
    return page.get_by_label("The photograph").first


def said(page):
    return page.locator(".said")


def write_down(page, words):
    """Type, and wait until the server has acknowledged these very words."""
    with page.expect_response(lambda r: r.request.method == "POST" and r.ok) as answer:
        box(page).fill(words)
    assert answer.value.json() == {"draft": True}
    expect(said(page)).to_contain_text("Written down at")


def forget(page):
    page.get_by_role("button", name="Throw this typing away").click()
    expect(box(page)).to_have_value("")


def test_a_cut_network_keeps_the_words_and_sends_them_when_it_is_back(server, phone):
    train, sofa = phone(), phone()
    page = open_on(train, server.links[HERS])
    write_down(page, "The dog")
    train.set_offline(True)
    box(page).fill("The dog with the rings")
    expect(said(page)).to_contain_text("Your words stay on this phone")
    train.set_offline(False)
    expect(said(page)).to_contain_text("Written down at")
    other = open_on(sofa, server.links[HERS])
    expect(box(other)).to_have_value("The dog with the rings")
    assert not page.evaluate("Object.values(localStorage).some((sheet) => JSON.parse(sheet).body)")
    page.reload()
    forget(page)


def test_words_typed_in_a_tunnel_are_there_when_the_page_is_opened_again(server, phone):
    train = phone()
    page = open_on(train, server.links[HERS])
    train.set_offline(True)
    box(page).fill("Grandad’s watch")
    page.close()
    train.set_offline(False)
    page = open_on(train, server.links[HERS])
    expect(box(page)).to_have_value("Grandad’s watch")
    expect(page.get_by_text("Here is what you had typed")).to_be_visible()
    forget(page)


def test_a_step_kept_in_a_tunnel_waits_on_its_page(server, phone):
    train = phone()
    page = open_on(train, server.links[HERS])
    train.set_offline(True)
    box(page).fill("Grandad’s watch")
    page.get_by_role("button", name="Keep").last.click()
    expect(said(page)).to_contain_text("Your words stay on this phone")
    train.set_offline(False)
    expect(said(page)).to_contain_text("Written down at")
    keep(page, STEP)
    assert page.evaluate("localStorage.length") == 0
    open_step(page, STEP)
    page.get_by_label("Remove").first.check()
    keep(page, STEP)


def test_every_acknowledged_word_outlives_a_server_that_is_killed(server, phone):
    hers = phone()
    page = open_on(hers, server.links[HERS])
    words = ""
    for word in ("The", " silver", " belt"):
        words += word
        write_down(page, words)
        server.kill()  # between one writing down and the next
        box(page).fill(f"{words}, and")
        expect(said(page)).to_contain_text("Your words stay on this phone")
        server.start()
        other = open_on(phone(), server.links[HERS])
        assert box(other).input_value() in (words, f"{words}, and")
        expect(said(page)).to_contain_text("Written down at")
    other.reload()
    expect(box(other)).to_have_value(f"{words}, and")
    page.reload()
    forget(page)


def test_two_partners_write_at_once_and_the_second_chooses(server, phone):
    hers = open_on(phone(), server.links[HERS], "The two of you")
    his = open_on(phone(), server.links[HERS], "The two of you")
    for page in (hers, his):
        page.get_by_label("What matters most").fill("")
    keep(hers, "The two of you")
    open_step(hers, "The two of you")
    his.goto(server.links[HERS])
    open_step(his, "The two of you")
    hers.get_by_label("What matters most").fill("Her grandmother’s laugh")
    his.get_by_label("What matters most").fill("The light")
    his.get_by_label("Mobile phone").first.fill("07700 900123")
    expect(said(hers)).to_contain_text("Written down at")
    expect(said(his)).to_contain_text("Written down at")
    keep(hers, "The two of you")
    his.get_by_role("button", name="Keep").last.click()
    expect(his.get_by_role("alert")).to_contain_text("changed after you opened the page")
    expect(his.get_by_role("group", name="Changed on another phone")).to_contain_text(
        "Her grandmother’s laugh"
    )
    expect(his.get_by_label("What matters most")).to_have_value("The light")
    his.get_by_label("Keep both").check()
    keep(his, "The two of you")
    open_step(hers, "The two of you")
    expect(hers.get_by_label("What matters most")).to_have_value(
        "Her grandmother’s laugh\nThe light"
    )
    expect(hers.get_by_label("Mobile phone").first).to_have_value("07700 900123")


def test_words_behind_a_dead_link_wait_for_the_new_one_and_for_no_other_wedding(server, phone):
    hers = phone()
    page = open_on(hers, server.links[HERS])
    hers.clear_cookies()  # as when a cookie has run out
    box(page).fill("The belt")
    expect(said(page)).to_contain_text("open your newest link")
    other = open_on(hers, server.links[HIS])
    expect(other.get_by_text("The belt")).to_have_count(0)
    expect(box(other)).not_to_have_value("The belt")
    page.close()
    page = open_on(hers, server.links[HERS])
    expect(box(page)).to_have_value("The belt")
    forget(page)
    assert page.evaluate("localStorage.length") == 0


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])
def test_a_list_is_pasted_looked_at_and_kept_by_keyboard(server, phone, javascript):
    page = open_on(phone(java_script_enabled=javascript), server.links[HERS], "Group photographs")
    page.get_by_role("button", name="Paste your list").press("Enter")
    page.get_by_label("Your list of group").fill("Us + Ada: Bo, Cy\nChoir x12\nAunt Odile’s lot")
    page.get_by_role("button", name="Make groups").press("Enter")
    title = page.get_by_role("group", name="Group 3").get_by_label("Title")
    expect(title).to_have_value("Aunt Odile’s lot")
    page.get_by_role("button", name="Keep").last.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("Enter who is in it")
    lot = page.get_by_role("group", name="Group 3")
    lot.get_by_label("Somebody named before").fill("Odile")
    page.get_by_role("button", name="Keep").last.press("Enter")
    expect(page.get_by_role("status").first).to_contain_text("Kept: Group photographs")
    open_step(page, "Group photographs")
    people = page.get_by_label("People, one name a line")
    expect(people.first).to_have_value("Mereana\nElias\nBo\nCy")
    expect(people.nth(2)).to_have_value("Odile")
    assert page.evaluate("document.documentElement.scrollWidth") == 375
    for number in range(3):
        page.get_by_label(f"Remove: Group {number + 1}").check()
    page.get_by_role("button", name="Keep").last.press("Enter")
    expect(page.get_by_role("status").first).to_contain_text("Kept: Group photographs")


def test_leaving_by_back_reload_and_a_double_tap_lose_and_double_nothing(server, phone):
    page = open_on(phone(), server.links[HIS])
    box(page).fill("The sledge")
    page.go_back()
    expect(page.get_by_role("link", name=f"{STEP} begun, not kept yet")).to_be_visible()
    page.evaluate("history.forward()")  # what had not arrived may send the page on once more
    expect(box(page)).to_have_value("The sledge")
    box(page).fill("The sledge by the door")
    page.reload()
    expect(box(page)).to_have_value("The sledge by the door")
    page.get_by_role("button", name="Keep").last.dblclick(no_wait_after=True)
    expect(page.get_by_role("status").first).to_contain_text(f"Kept: {STEP}")
    page.goto(page.url)
    open_step(page, STEP)
    page.wait_for_load_state()
    values = [each.input_value() for each in page.get_by_label("The photograph").all()]
    assert values.count("The sledge by the door") == 1


def test_a_page_whose_link_was_replaced_keeps_its_words_for_the_new_link(server, phone):
    sofa = phone()
    page = open_on(sofa, server.links[HERS])
    code = (
        "from intake.models import Wedding as W; from intake.links import *;"
        f"w = W.objects.get(public_id={HERS!r}); make_new_link(w); print(link_path(w))"
    )
    command = [sys.executable, "manage.py", "shell", "--no-imports", "-c", code]
    environment = environment_for(server.data)
    run = subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, text=True, check=True
    )
    box(page).fill("The river at dusk")
    expect(said(page)).to_contain_text("stay on this phone")
    page.get_by_role("button", name="Keep", exact=True).last.click()
    expect(page.get_by_role("heading")).to_contain_text("This link does not open anything")
    assert "The river at dusk" in page.locator("#typed").input_value()
    server.links[HERS] = server.links[HERS].partition("/q/")[0] + run.stdout.strip()
    page = open_on(sofa, server.links[HERS])
    expect(box(page)).to_have_value("The river at dusk")
    forget(page)
