"""Pictures from a phone: with scripts and without, good ones and one that is too large."""

import pytest
from playwright.sync_api import expect

from tests.sent_files import SCRIPT, jpeg

from .test_journey import open_step

pytestmark = pytest.mark.xdist_group("browser")


def as_file(name, content):
    return {"name": name, "mimeType": "image/jpeg", "buffer": content}


def keep(page):
    page.get_by_role("button", name="Keep").last.click()


def open_pictures(page_of, site, wedding, **options):
    page = page_of(320, **options)
    page.goto(site.links[wedding])
    open_step(page, "Pictures you like")
    return page


def test_several_pictures_at_once_without_scripts(page_of, site):
    page = open_pictures(page_of, site, "demo-two-villages", java_script_enabled=False)
    files = [as_file("a.jpg", jpeg(1)), as_file("b.jpg", SCRIPT), as_file("c.jpg", jpeg(2))]
    page.get_by_label("Choose pictures").set_input_files(files)
    page.get_by_label("What you like about it").fill("This blue")
    keep(page)
    expect(page.get_by_role("alert")).to_contain_text("“b.jpg”: This is not a JPEG")
    expect(page.get_by_text("Added: 2 pictures.")).to_be_visible()
    boxes = page.get_by_label("What you like about it")
    assert [boxes.nth(i).input_value() for i in range(3)] == ["This blue"] * 3
    boxes.nth(2).fill("")
    page.get_by_label("Remove picture 1").check()
    boxes.nth(1).fill("The hats")
    keep(page)
    open_step(page, "Pictures you like")
    expect(page.get_by_label("What you like about it").first).to_have_value("The hats")
    expect(page.get_by_role("img")).to_have_count(1)


def test_a_file_that_is_too_large_is_said_before_it_is_sent(page_of, site, tmp_path):
    page = open_pictures(page_of, site, "demo-far-hillside")
    (tmp_path / "large.jpg").write_bytes(jpeg() + bytes(21 * 1024 * 1024))
    page.get_by_label("Choose pictures").set_input_files(tmp_path / "large.jpg")
    expect(page.get_by_text("“large.jpg” has 22 MB: more than we take")).to_be_visible()
    page.get_by_label("Choose pictures").set_input_files([as_file("a.jpg", jpeg())])
    expect(page.get_by_text("more than we take")).to_have_count(0)
    keep(page)
    seen = page.get_by_role("img", name="Picture 1, in full")
    expect(seen).to_be_visible()
    assert seen.evaluate("image => image.decode().then(() => image.naturalWidth)") == 480
    page.get_by_label("Remove picture 1").check()
    expect(page.get_by_label("What you like about it").first).to_be_hidden()
    keep(page)
    open_step(page, "Pictures you like")
    expect(page.get_by_role("img")).to_have_count(0)
