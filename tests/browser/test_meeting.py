"""The meeting from note to confirmation, without scripts: a laptop and a phone."""

import re

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")

WEDDING = "demo-orchard-barn"


def test_what_is_settled_is_shared_confirmed_on_a_phone_and_told_when_it_changes(site, page_of):
    desk = page_of(java_script_enabled=False)
    sign_in(desk, site)
    desk.goto(f"{site.url}/w/{WEDDING}/meeting")
    desk.get_by_label("Note: Orchard Barn").fill("Ring Marguerite a week before")
    desk.get_by_label("note into the summary: Orchard Barn").check()
    desk.get_by_label("Another open point").fill("Who carries the bread and salt?")
    desk.get_by_role("button", name="Keep the notes: Places").click()
    expect(desk.get_by_text("Kept: Places.")).to_be_visible()
    expect(desk.get_by_label("What is open")).to_have_value("Who carries the bread and salt?")
    desk.get_by_role("button", name="Share the agreed summary").click()
    expect(desk.get_by_text("Shared: version 1.")).to_be_visible()

    phone = page_of(width=320, java_script_enabled=False)
    phone.goto(site.links[WEDDING])
    phone.get_by_role("link", name="Agreed summary").click()
    expect(phone.get_by_text("Ring Marguerite a week before")).to_be_visible()
    phone.get_by_role("button", name="Confirm this summary").click()
    expect(phone).to_have_title(re.compile("^Error:"))
    phone.get_by_label("Your full name").fill("Łukasz Wiśniewski")
    phone.get_by_role("button", name="Confirm this summary").click()
    expect(phone.get_by_text("Confirmed by Łukasz Wiśniewski.")).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") == 320
    phone.get_by_label("What is not right?").fill("Ragnar sings before the meal")
    phone.get_by_role("button", name="Send this to your photographer").click()

    desk.goto(f"{site.url}/w/{WEDDING}/meeting")
    expect(desk.get_by_text("Ragnar sings before the meal", exact=True)).to_be_visible()
    expect(desk.get_by_text("nothing changed since").first).to_be_visible()
    desk.get_by_label("Note: Orchard Barn").fill("Ring Marguerite on the Friday")
    desk.get_by_role("button", name="Keep the notes: Places").click()
    expect(desk.get_by_text("1 change since").first).to_be_visible()
    phone.goto(f"{site.url}/q/{WEDDING}/agreed")
    expect(phone.get_by_role("heading", name="Changed since you agreed")).to_be_visible()
    told = "Orchard Barn, note: Ring Marguerite on the Friday"
    expect(phone.get_by_text(told)).to_be_visible()
