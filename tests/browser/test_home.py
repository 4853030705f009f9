"""A phone at the photographer's table: plain HTTP, by a name of the home network."""

import json
import re

import pytest
from playwright.sync_api import expect

from tests.own_place import environment_for
from tests.server import manage, serving

from .chromium import chromium

pytestmark = pytest.mark.xdist_group("browser")
PHONE = "marigold.local"


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    """The demo's season as the guide serves it at home; its address, and the password."""
    environment = environment_for(tmp_path_factory.mktemp("home"), FOREDAY_HOME_HOSTS=PHONE)
    said = json.loads(manage(environment, "demo", "--no-serve", "--json"))
    with serving(environment) as (address, _log):
        yield address, said["sign_in"]["password"]


@pytest.fixture(scope="module")
def browser():
    """Names of the home network lead here; as on a phone, such a page is no secure context."""
    with chromium(f"--host-resolver-rules=MAP {PHONE} 127.0.0.1") as browser:
        yield browser


def test_the_couple_answers_on_a_phone_while_the_photographer_sits_at_the_laptop(home, browser):
    address, password = home
    laptop = browser.new_page()
    laptop.goto(address)
    laptop.get_by_label("Name", exact=True).fill("marigold")
    laptop.get_by_label("Password").fill(password)
    laptop.get_by_role("button", name="Sign in").click()
    laptop.goto(f"{address}/w/demo-winter-hall/link")
    link = laptop.get_by_label("The link").input_value()
    assert link.startswith(address.replace("127.0.0.1", PHONE) + "/q/")
    expect(laptop.get_by_text("without encryption")).to_be_visible()

    complaints = []
    phone = browser.new_page(viewport={"width": 360, "height": 700})
    phone.on("pageerror", lambda error: complaints.append(str(error)))
    phone.goto(link)
    assert phone.evaluate("isSecureContext") is False
    phone.get_by_role("link", name=re.compile("People")).first.click()
    phone.get_by_role("button", name=re.compile("^Add another")).first.click()
    phone.locator("textarea, input:not([type=hidden])").last.wait_for()
    phone.get_by_role("button", name="Keep").last.click()
    expect(phone).to_have_url(re.compile(rf"^http://{PHONE}:\d+/q/demo-winter-hall/"))
    assert complaints == []
