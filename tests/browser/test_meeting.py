"""The meeting from note to confirmation, without scripts: a laptop and a phone."""

import re

import pytest
from playwright.sync_api import expect

from .test_journey import sign_in

pytestmark = pytest.mark.xdist_group("browser")

WEDDING = "demo-orchard-barn"


def unfold(page, step):
    page.get_by_text(re.compile(rf"settled: {step}$")).click()


def test_what_is_settled_is_shared_confirmed_on_a_phone_and_told_when_it_changes(site, page_of):
    desk = page_of(java_script_enabled=False)
    sign_in(desk, site)
    desk.goto(f"{site.url}/w/{WEDDING}/meeting")
    unfold(desk, "Places")
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
    expect(phone.get_by_text("Sent. Your photographer")).to_be_visible()

    desk.goto(f"{site.url}/w/{WEDDING}/meeting")
    expect(desk.get_by_text("Ragnar sings before the meal", exact=True)).to_be_visible()
    expect(desk.get_by_text("nothing changed since").first).to_be_visible()
    unfold(desk, "Places")
    desk.get_by_label("Note: Orchard Barn").fill("Ring Marguerite on the Friday")
    desk.get_by_role("button", name="Keep the notes: Places").click()
    expect(desk.get_by_text("1 change since").first).to_be_visible()
    phone.goto(f"{site.url}/q/{WEDDING}/agreed")
    expect(phone.get_by_role("heading", name="Changed since you agreed")).to_be_visible()
    told = "Orchard Barn, note: Ring Marguerite on the Friday"
    expect(phone.get_by_text(told)).to_be_visible()


def test_a_phone_shows_what_is_open_first_and_the_answers_where_they_are_asked_for(site, page_of):
    phone = page_of(width=360)
    sign_in(phone, site)
    phone.goto(f"{site.url}/w/demo-two-days/meeting")
    note = phone.get_by_label("Note: Hollin Meadow")
    expect(phone.get_by_role("heading", name="Still open")).to_be_visible()
    expect(note).to_be_hidden()
    phone.get_by_role("link", name="Places", exact=True).click()  # the list at the top unfolds it
    note.fill("Ask for the second gate")
    phone.get_by_role("button", name="Keep the notes: Places").click()
    expect(note).to_be_visible()  # and it stays so where one goes on
    expect(note).to_have_value("Ask for the second gate")
    expect(phone.get_by_label("Note: Conor O’Neill")).to_be_hidden()


def test_a_desk_shows_all_answers_at_once(site, page_of):
    desk = page_of()
    sign_in(desk, site)
    desk.goto(f"{site.url}/w/demo-two-days/meeting")
    expect(desk.get_by_label("Note: Hollin Meadow")).to_be_visible()


def test_a_fold_is_open_where_something_in_it_cannot_be_kept(site, page_of):
    phone = page_of(width=360, java_script_enabled=False)
    sign_in(phone, site)
    phone.goto(f"{site.url}/w/demo-two-days/meeting")
    unfold(phone, "Places")
    phone.get_by_label("Note: Hollin Meadow").fill("x" * 2001)
    phone.get_by_role("button", name="Keep the notes: Places").click()
    expect(phone).to_have_title(re.compile("^Error:"))
    expect(phone.get_by_label("Note: Hollin Meadow")).to_be_visible()
