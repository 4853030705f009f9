"""The pictures in the day pack: all on one page, with words for who cannot see them."""

import io
from dataclasses import replace

import pytest
from PIL import Image
from pypdf import PdfReader

from intake.store import keep
from planning.compute.values import Picture
from planning.contact_sheet import contact_sheets
from planning.paper.printing import Printing
from studio.models import Studio
from tests.sent_files import as_bytes, drawing, jpeg, upload

from .drawn import pdf_of
from .plans import make_plan

LONG = (
    "The way they look at each other, nobody at the camera, low light, and hats, hats, "
    "and more of the hats, and of everything under them"
)


@pytest.fixture
def small(kept_files):
    return keep(upload(as_bytes(drawing(600, 900), "JPEG")), "a").small


def pages(*pictures):
    plan = make_plan()
    plan = replace(plan, brief=replace(plan.brief, pictures=pictures))
    how = Printing(frozenset({"cover", "pictures"}))
    return PdfReader(io.BytesIO(pdf_of(plan, Studio(name="Marigold Lane"), how=how)))


def text_of(reader):
    return [page.extract_text() for page in reader.pages]


def alternatives(reader):
    """The alternative texts of every figure in the tag tree (PDF 1.7, 14.9.3)."""
    waiting, found = [reader.trailer["/Root"]["/StructTreeRoot"]], []
    while waiting:
        node = waiting.pop().get_object()
        if isinstance(node, list):
            waiting.extend(node)
        elif isinstance(node, dict):
            found += [node["/Alt"]] if node.get("/S") == "/Figure" and "/Alt" in node else []
            waiting += [node["/K"]] if "/K" in node else []
    return found


def test_twelve_with_the_longest_lines_are_one_page(small):
    assert len(LONG) >= 120
    without = len(pages().pages)
    reader = pages(*[Picture(LONG[:120], small)] * 12)
    assert len(reader.pages) == without + 1
    (sheet,) = [text for text in text_of(reader) if "Pictures they like" in text]
    assert sheet.count("hats, hats") == 12


def test_six_larger_ones_are_one_page_too(small):
    pictures = [Picture(LONG[:120], small)] * 6
    assert contact_sheets(tuple(pictures))[0].few
    assert len(pages(*pictures).pages) == len(pages().pages) + 1


def test_the_photographers_stand_behind_the_couples(small):
    both = (Picture("Hats", small), Picture("The big door", small, own=True))
    theirs, ours = contact_sheets(both)
    assert [theirs.title, ours.title] == ["Pictures they like", "Pictures of ours"]
    assert [ours.rows[0][0].number, ours.rows[0][0].line] == [1, "The big door"]
    assert len(pages(*both).pages) == len(pages().pages) + 1


def test_a_few_of_each_still_share_a_page(small):
    mine = [Picture("Door", small, own=True)]
    assert len(pages(*[Picture(LONG[:120], small)] * 5, *mine).pages) == len(pages().pages) + 1


def test_a_picture_without_a_line_has_words_all_the_same(small):
    three = (Picture("Hats", small), Picture("", small), Picture("", small, own=True))
    alts = [each.alt for sheet in contact_sheets(three) for row in sheet.rows for each in row]
    assert alts == ["Hats", "Picture 2 from the couple", "Our picture 1"]
    assert "Picture 2 from the couple" in alternatives(pages(*three))


def test_no_pictures_take_no_room():
    assert contact_sheets(()) == []
    assert not any("Pictures they like" in text for text in text_of(pages()))


def test_the_picture_itself_is_in_the_file(small):
    found = [image for page in pages(Picture("", small)).pages for image in page.images]
    assert {Image.open(io.BytesIO(image.data)).size for image in found} == {(320, 480)}


def test_a_lost_file_leaves_its_line_and_no_hole(kept_files):
    text = " ".join(text_of(pages(Picture("Hats", "a/gone.jpg"))))
    assert "Hats" in text
    assert "(the file is not there)" in text


def test_the_same_pictures_are_the_same_file(kept_files):
    name = keep(upload(jpeg()), "a").small
    plan = make_plan()
    plan = replace(plan, brief=replace(plan.brief, pictures=(Picture("Hats", name),)))
    one, again = (pdf_of(plan, Studio(name="M")) for _ in range(2))
    assert one == again
