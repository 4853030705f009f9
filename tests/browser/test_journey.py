"""The whole main job, as people do it: from the couple's link to the day pack and the calendar.

Told twice, with JavaScript and without. Everybody in it is invented.
"""

import re
from datetime import datetime
from pathlib import Path

import pytest
import vobject
from playwright.sync_api import expect
from pypdf import PdfReader

from tests.planning.glyphs import drawn_as_written

pytestmark = pytest.mark.xdist_group("browser")

# Browsers put a space before words that are only heard.
DAY_PACK = re.compile(r"^Download \(PDF\) ?: Day pack$")
GROUPS = [
    ("Us and both parents", ["Guðrún Jónsdóttir", "Sigurður Björnsson", "Małgorzata Wiśniewska"]),
    ("Þóra’s whole family", ["Guðrún Jónsdóttir", "Sigurður Björnsson", "Ragnar", "Elísabet",
                             "Freyja", "Ingibjörg Einarsdóttir"]),
    ("Friends from school", ["Anh Nguyễn", "Sinéad O’Neill", "Tomáš Žáček", "Priya Venkat"]),
    ("Łukasz’s whole family", ["Małgorzata Wiśniewska", "Zbigniew Wiśniewski", "Agnieszka",
                               "Antoni", "Zosia"]),
    ("Amma", ["Ingibjörg Einarsdóttir"]),
    ("Witnesses", ["Priya Venkat", "Mateusz Kowalczyk"]),
    ("Everybody on the steps", []),
]  # fmt: skip


def sign_in(page, site):
    page.goto(f"{site.url}/")
    page.get_by_label("Name", exact=True).fill(site.username)
    page.get_by_label("Password").fill(site.password)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", name="Season")).to_be_visible()


def add_wedding(page, day):
    page.get_by_role("link", name="Add a wedding").click()
    page.get_by_label("First partner’s full name").fill("Þóra Sigurðardóttir")
    page.get_by_label("Second partner’s full name").fill("Łukasz Wiśniewski")
    page.get_by_label("Date", exact=True).fill(day)
    page.get_by_label("Booked from").fill("09:00")
    page.get_by_label("Booked until").fill("23:00")
    page.get_by_label("Answers wanted by").fill("2027-01-05")
    page.get_by_label("Planning meeting").fill("2027-01-10T18:30")
    page.get_by_role("button", name="Keep").last.click()
    expect(page.get_by_role("heading", name="Their link")).to_be_visible()
    return page.get_by_label("The link", exact=True).input_value()


def keep(page, step):
    page.get_by_role("button", name="Keep").last.click()
    expect(page.get_by_role("status")).to_contain_text(f"Kept: {step}")


def open_step(page, step):
    page.get_by_role("link", name=step).click()
    expect(page.get_by_role("heading", name=step, level=1)).to_be_visible()


def row(page, name):
    return page.get_by_role("group", name=name, exact=True)


def fill_two_of_you(page):
    open_step(page, "The two of you")
    row(page, "Partner 1").get_by_label("What you are called").fill("Þóra")
    row(page, "Partner 1").get_by_label("Mobile phone").fill("07700 900112")
    page.get_by_label("What matters most").fill("Our two families meeting.")
    keep(page, "The two of you")


def fill_day(page):
    open_step(page, "The day")
    row(page, "Time 1").get_by_label("Time", exact=False).first.fill("14:00")
    row(page, "Time 2").get_by_label("We do not know yet").check()
    page.get_by_role("button", name="Add another time").click()
    row(page, "Time 3").get_by_label("What", exact=True).select_option("Speeches")
    row(page, "Time 3").get_by_label("Time", exact=False).first.fill("18:15")
    keep(page, "The day")


def fill_places(page):
    open_step(page, "Places")
    place = row(page, "Place 1")
    place.get_by_label("Name of the place").fill("Orchard Barn")
    place.get_by_label("Ceremony").check()
    place.get_by_label("Drinks and meal").check()
    place.get_by_label("Who is in charge there").fill("Marguerite Hale")
    place.get_by_label("Their phone").fill("01632 960131")
    place.get_by_label("Where to go if it rains").fill("The cart shed")
    keep(page, "Places")


def fill_people(page):
    open_step(page, "People")
    row(page, "Helper 1").get_by_label("Name").fill("Ragnar Sigurðsson")
    row(page, "Helper 1").get_by_label("Whose faces they know").select_option("Þóra’s side")
    row(page, "Helper 1").get_by_label("Phone").fill("07700 900116")
    keep(page, "People")


def fill_groups(page, groups):
    for number, (title, people) in groups:
        group = row(page, f"Group {number}")
        group.get_by_label("Title").fill(title)
        group.get_by_label("People, one name a line").fill("\n".join(people))
        if not people:
            group.get_by_label("And how many more").fill("84")
        if number < len(GROUPS):
            page.get_by_role("button", name="Add another group").click()


def fill_rest(page):
    open_step(page, "Photographs you want")
    row(page, "Photograph 1").get_by_label("The photograph").fill("Amma’s silver belt")
    keep(page, "Photographs you want")
    open_step(page, "What we should know")
    note = row(page, "Note 1")
    note.get_by_label("Who", exact=True).fill("Ingibjörg Einarsdóttir")
    note.get_by_label("What we should know").select_option("cannot stand long")
    keep(page, "What we should know")


def fill_questionnaire(page, link):
    """As a couple on a phone, who stop halfway through the groups and come back."""
    page.goto(link)
    assert "/q/" in page.url
    assert link.rsplit("/", 1)[1] not in page.url  # the address no longer holds the secret
    for fill in (fill_two_of_you, fill_day, fill_places, fill_people):
        fill(page)
    open_step(page, "Group photographs")
    numbered = list(enumerate(GROUPS, 1))
    fill_groups(page, numbered[:4])
    row(page, "Group 5").get_by_label("Title").fill("unfinished")
    row(page, "Group 5").get_by_label("Remove").check()
    keep(page, "Group photographs")
    page.goto("about:blank")  # the train arrives
    page.goto(link)
    open_step(page, "Group photographs")
    page.get_by_role("button", name="Add another group").click()
    fill_groups(page, numbered[4:])
    keep(page, "Group photographs")
    fill_rest(page)
    page.get_by_role("link", name="Read it through and send").click()
    expect(page.get_by_text("Everybody on the steps")).to_be_visible()
    page.get_by_role("button", name="Send to your photographer").click()
    expect(page.get_by_role("status")).to_contain_text("Sent.")


def download(page, name, folder, role="link"):
    with page.expect_download() as waiting:
        page.get_by_role(role, name=name).first.click()
    path = Path(folder) / waiting.value.suggested_filename
    waiting.value.save_as(path)
    return path


def read_papers(page, folder):
    page.get_by_role("link", name="Papers").click()
    pack = download(page, DAY_PACK, folder, role="button")
    calendar = download(page, "Download the calendar", folder)
    return pack, calendar


@pytest.mark.parametrize("javascript", [True, False], ids=["javascript on", "javascript off"])
def test_from_the_link_to_the_day_pack(site, page_of, tmp_path, javascript):
    photographer = page_of(java_script_enabled=javascript)
    sign_in(photographer, site)
    link = add_wedding(photographer, "2027-06-12")

    fill_questionnaire(page_of(width=375, java_script_enabled=javascript), link)

    photographer.get_by_role("link", name="Answers").click()
    expect(photographer.get_by_text("Our two families meeting.")).to_be_visible()
    expect(photographer.get_by_text("sent on", exact=False)).to_be_visible()
    pack, calendar = read_papers(photographer, tmp_path)

    text = "\n".join(page.extract_text() for page in PdfReader(pack).pages)
    sizes = {title: len(people) or 84 for title, people in GROUPS}
    places = {title: text.index(title) for title in sizes}
    assert sorted(places, key=places.get) == sorted(sizes, key=lambda title: -sizes[title])
    assert "07700 900112" in text
    assert drawn_as_written(pack, "Łukasz")
    assert drawn_as_written(pack, "Þóra")

    events = vobject.readOne(calendar.read_text()).vevent_list
    starts = {event.summary.value: event.dtstart.value for event in events}
    (ceremony,) = (at for summary, at in starts.items() if "Ceremony" in summary)
    assert ceremony.replace(tzinfo=None) == datetime(2027, 6, 12, 14, 0)


@pytest.mark.parametrize("day", ["2027-01-16", "2027-06-12", "2027-12-04"])
def test_another_reader_sees_the_same_clock_times(site, page_of, tmp_path, day):
    page = page_of()
    sign_in(page, site)
    link = add_wedding(page, day)
    fill_day_only(page_of(width=375), link)
    page.get_by_role("link", name="Papers").click()
    calendar = download(page, "Download the calendar", tmp_path)

    events = vobject.readOne(calendar.read_text()).vevent_list
    clock = {
        f"{event.dtstart.value:%Y-%m-%d %H:%M}"
        for event in events
        if any(title in event.summary.value for title in ("Ceremony", "Speeches"))
    }
    assert clock == {f"{day} 14:00", f"{day} 18:15"}


def fill_day_only(page, link):
    page.goto(link)
    fill_day(page)


def test_typing_left_on_a_step_is_there_on_return(site, page_of):
    page = page_of(width=375)
    page.goto(site.links["demo-far-hillside"])
    open_step(page, "Photographs you want")
    page.get_by_label("The photograph").first.fill("The dog with the rings")
    page.get_by_role("link", name="Back to the list").click()
    page.wait_for_timeout(500)  # the typing travels beside the next page
    open_step(page, "Photographs you want")
    expect(page.get_by_label("The photograph").first).to_have_value("The dog with the rings")


def test_what_is_typed_before_the_scripts_are_there_is_written_down_too(site, page_of):
    page, held = page_of(width=375), []
    page.route("**/drafts*.js", lambda route: held.append(route))  # a slow line
    page.goto(site.links["demo-far-hillside"])
    page.get_by_role("link", name="What we should know").click(no_wait_after=True)
    page.get_by_label("Who", exact=True).first.fill("Uncle Aroha")
    page.get_by_label("What we should know").first.select_option("cannot stand long")
    held[0].continue_()
    expect(page.locator("[data-said]")).to_contain_text("Written down at")
    page.goto("about:blank")
    page.goto(site.links["demo-far-hillside"])
    open_step(page, "What we should know")
    expect(page.get_by_label("Who", exact=True).first).to_have_value("Uncle Aroha")


def test_words_that_arrive_while_the_page_is_on_its_way_are_shown_too(site, page_of):
    """A slow server: the list has the words taken, after the step was asked for without them."""
    page = page_of(width=375)
    page.goto(site.links["demo-far-hillside"])
    open_step(page, "What we should know")
    address = page.url
    bare = page.context.request.get(address).text()
    page.get_by_label("Who", exact=True).first.fill("Grandmother Elin")
    expect(page.locator("[data-said]")).to_contain_text("Written down at")
    page.goto("about:blank")
    page.route(address, lambda route: route.fulfill(body=bare, content_type="text/html"), times=1)
    page.goto(address)
    expect(page.get_by_label("Who", exact=True).first).to_have_value("Grandmother Elin")
