"""Every kind of box is filled by keyboard alone, and nothing ever covers what has the focus."""

import re

import pytest
from playwright.sync_api import expect

from tests.sent_files import jpeg

from .test_journey import add_wedding, sign_in

pytestmark = pytest.mark.xdist_group("browser")

SHARED = "demo-two-days"
FOCUS = """() => {
  const el = document.activeElement;
  if (el === document.body) return null;
  const box = el.getBoundingClientRect();
  const on_top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
  const style = getComputedStyle(el);
  return {
    label: (el.labels?.[0] ?? el).innerText.trim(),
    row: el.closest("fieldset.row")?.querySelector("legend").innerText.trim() ?? "",
    question: el.closest("fieldset.field")?.querySelector("legend")?.innerText.trim() ?? "",
    shown: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
    free: el === on_top || el.contains(on_top) || !!on_top?.contains(el),
  };
}"""
MOST_TABS = 200


class Keys:
    """Somebody at a keyboard."""

    def __init__(self, page):
        self.page = page
        page.on("filechooser", lambda _chooser: None)  # asked for early, it is there in time

    def to(self, label, row="", question=""):
        """Tab on to what is called so; everything on the way shows that it has the focus."""
        for _ in range(MOST_TABS):
            self.page.keyboard.press("Tab")
            now = self._focus()
            if now is None:  # the end of the page; it goes on at its beginning
                continue
            assert now["shown"], now
            assert now["free"], now
            if (
                now["label"].startswith(label)
                and row in ("", now["row"])
                and now["question"].startswith(question)
            ):
                return
        raise AssertionError(f"no way to {label} {row} {question}")

    def _focus(self):
        """What has the focus, once the page has scrolled to it; None at its end."""
        for _ in range(40):
            now = self.page.evaluate(FOCUS)
            if now is None or now["free"]:
                break
            self.page.wait_for_timeout(50)
        return now

    def write(self, words, label, row=""):
        self.to(label, row)
        self.page.keyboard.type(words)

    def press(self, label, row="", question="", key="Enter"):
        self.to(label, row, question)
        self.page.keyboard.press(key)

    def add(self, button, label, row, words):
        """Another row; with scripts the focus is in its first box at once, else right before it."""
        self.press(button)
        expect(self.page.get_by_role("group", name=row, exact=True)).to_be_visible()
        if not self.page.locator("input:focus, textarea:focus").count():
            self.to(label, row)
        self.page.keyboard.type(words)

    def keep(self, step):
        self.press("Keep")
        expect(self.page.get_by_role("status").first).to_contain_text(f"Kept: {step}")

    def open(self, step):
        self.press(step)
        expect(self.page.get_by_role("heading", name=step, level=1)).to_be_visible()


def two_of_you(keys):
    keys.open("The two of you")
    keys.write("Tóta", "What you are called", "Partner 1")
    keys.write("07700 900512", "Mobile phone", "Partner 1")
    keys.write("Our two families.", "What matters most")
    keys.keep("The two of you")


def the_day(keys):
    keys.open("The day")
    keys.write("2 pm", "Time", "Time 1")
    keys.press("We do not know yet", "Time 2", key="Space")
    keys.keep("The day")


def places(keys):
    keys.open("Places")
    keys.write("Orchard Barn", "Name of the place", "Place 1")
    keys.press("Ceremony", "Place 1", key="Space")
    keys.write("The loft", "Where to go if it rains", "Place 1")
    keys.keep("Places")


def people(keys):
    keys.open("People")
    keys.write("Rua", "Name", "Helper 1")
    keys.write("T", "Whose faces they know", "Helper 1")  # typing picks from a list
    keys.add("Add another person", "Name", "Person 2", "Hana")
    keys.press("Yes", question="Will there be animals?", key="Space")
    keys.keep("People")


def groups(keys):
    keys.open("Group photographs")
    keys.press("Paste your list")
    expect(keys.page.get_by_role("heading", name="Paste your list")).to_be_visible()
    keys.write("Us + Ada: Bo, Cy\nChoir x12", "Your list of group")
    keys.press("Make groups")
    expect(keys.page.get_by_role("group", name="Group 2")).to_be_visible()
    keys.keep("Group photographs")


def photographs(keys):
    keys.open("Photographs you want")
    keys.write("The belt on the bed", "The photograph", "Photograph 1")
    keys.add("Add another photograph", "The photograph", "Photograph 2", "Koro laughing")
    keys.keep("Photographs you want")


def pictures(keys):
    keys.open("Pictures you like")
    keys.to("Choose pictures")
    with keys.page.expect_file_chooser() as asked:
        keys.page.keyboard.press("Space")
    asked.value.set_files({"name": "sea.jpg", "mimeType": "image/jpeg", "buffer": jpeg()})
    keys.press("Keep")
    expect(keys.page.get_by_role("status").first).to_contain_text("Added: 1 picture.")
    keys.press("Back to the list")
    expect(keys.page.get_by_role("heading", name="Tóta & Łukasz")).to_be_visible()


def care(keys):
    keys.open("What we should know")
    keys.write("Nanny Rose", "Who", "Note 1")
    keys.write("cannot stand", "What we should know", "Note 1")
    keys.keep("What we should know")


def sharing(keys):
    keys.open("Who may see the pictures")
    keys.press("Yes", question="May we show photographs", key="Space")
    keys.page.keyboard.press("ArrowDown")  # on to the next of the group
    keys.keep("Who may see the pictures")


def more(keys):
    keys.open("A few more questions")
    keys.write("The lanterns", "What have you made yourselves")
    keys.keep("A few more questions")


FILL = (two_of_you, the_day, places, people, groups, photographs, pictures, care, sharing, more)


def test_every_page_is_filled_kept_and_sent(site, page_of):
    photographer = page_of()
    sign_in(photographer, site)
    page = page_of(360)
    page.goto(add_wedding(photographer, "2027-06-12"))
    keys = Keys(page)
    for fill in FILL:
        fill(keys)
    keys.press("Read it through and send")
    expect(page.get_by_role("heading", level=1)).to_have_text("Read it through")
    words = page.locator("main").inner_text()
    for said in (
        "Tóta",
        "07700 900512",
        "Our two families.",
        "14:00",
        "Rua",
        "Orchard Barn",
        "The loft",
        "Tóta’s side",
        "Hana",
        "Choir",
        "The belt on the bed",
        "Koro laughing",
        "Nanny Rose",
        "cannot stand long",
        "Ask us first",
        "The lanterns",
    ):
        assert said in words
    keys.press("Send to your photographer")
    expect(page.get_by_role("status").first).to_contain_text("Sent.")


def test_what_is_wrong_is_reached_mended_and_a_summary_confirmed(site, page_of):
    page = page_of(360)
    page.goto(site.links[SHARED])
    keys = Keys(page)
    keys.press("English")
    expect(page.get_by_role("link", name="Agreed summary")).to_be_visible()
    keys.open("Agreed summary")
    keys.press("Confirm this summary")
    expect(page).to_have_title(re.compile("^Error:"))
    keys.press("Enter your full name")  # the summary of errors leads to the box
    page.keyboard.type("Minh Anh Nguyễn")
    keys.press("Confirm this summary")
    expect(page.get_by_text("Confirmed by Minh Anh Nguyễn.")).to_be_visible()
