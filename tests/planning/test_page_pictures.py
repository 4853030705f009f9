"""Pages as pictures: names in letters of many languages, and where everything stands.

Text extraction tells the right names even where wrong letters are drawn, so names are compared with
pictures of the same names by another program; whole pages with pictures in tests/evidence/pages,
which somebody has looked at. Where a page is meant to look otherwise, look at the picture that the
failing test names, and put it in the place of the old one.
"""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PIL import Image

from planning.compute.planned import Turn
from planning.compute.values import Group
from planning.paper.printing import Printing
from planning.paper.subject import Reader
from studio.models import Studio
from tests.outside import needs

from .drawn import pdf_of
from .pictures import DPI, differs, page_pictures, strays, words_drawn, written
from .plans import make_block, make_plan

LOOKED_AT = Path(__file__).parent.parent / "evidence" / "pages"
NAMES = {
    "Azerbaijani": "Əli",
    "Croatian": "Đorđe",
    "Czech": "Žáček",
    "Estonian": "Õnne",
    "German": "Jörg",
    "Hungarian": "Győző",
    "Icelandic": "Þóra",
    "Latvian": "Ķirsis",
    "Lithuanian": "Ūsė",
    "Maltese": "Ħamrija",
    "Northern Sámi": "Áŋŋel",
    "Polish": "Łukasz",
    "Romanian": "Ștefan",
    "Swedish": "Åse",
    "Turkish": "Çağrı",
    "Vietnamese": "Nguyễn",
    "Welsh": "Siân",
    "Yoruba": "Ọlá",
}
FONTS = {"names": "SourceSans3-Regular", "titles": "SourceSerif4-Semibold"}
# In poppler 22.12 right names are at 0.002 at most, a Ł without its stroke at 0.008.
ALIKE = 0.005
SAME_PAGE = 0.01  # with its text 2 mm lower, a page is at 0.6 or more


def list_of_names():
    turns = tuple(Turn(i, Group(f"g{i}", n, (n,)), 3.0) for i, n in enumerate(NAMES.values(), 1))
    vows = make_block(date(2027, 6, 12), "14:00", 25, "Europe/London", fixed=True)
    return replace(make_plan(vows), turns=turns)


def calling_list(folder, how=None):
    pdf = folder / f"calling-list-{how.size if how else 'a4'}.pdf"
    plan, reader = list_of_names(), Reader("1", "Ragnar")
    pdf.write_bytes(
        pdf_of(plan, Studio(name="Marigold Lane"), "calling-list", reader, how or Printing())
    )
    return pdf


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """Pictures of each word of a list of names, by the word."""
    needs("pdftoppm", "pdftotext")
    folder, found = tmp_path_factory.mktemp("names"), {}
    pdf = calling_list(folder)
    for word, picture in words_drawn(pdf, page_pictures(pdf, folder, DPI)):
        found.setdefault(word, []).append(picture)
    return found


@pytest.mark.parametrize("where", FONTS)
@pytest.mark.parametrize("language", NAMES)
def test_a_name_is_drawn_as_another_program_draws_it(drawn, language, where):
    name = NAMES[language]
    wanted = written(name, FONTS[where])
    assert min(differs(picture, wanted) for picture in drawn[name]) < ALIKE


@pytest.mark.parametrize(
    ("name", "other"),
    [("Łukasz", "ffukasz"), ("Łukasz", "Lukasz"), ("Žáček", "Zacek"), ("Jörg", "Jorg"),
     ("Siân", "Sian"), ("Győző", "Gyözö"), ("Ștefan", "Stefan"), ("Đorđe", "Dorde"),
     ("Nguyễn", "Nguyên"), ("Əli", "□li")],
)  # fmt: skip
def test_a_letter_that_is_drawn_wrong_is_noticed(drawn, name, other):
    for font in FONTS.values():
        assert min(differs(picture, written(other, font)) for picture in drawn[name]) > ALIKE


@pytest.mark.parametrize("size", ["a4", "a6"])
def test_a_page_looks_as_it_did_when_somebody_looked_at_it(tmp_path, size):
    needs("pdftoppm")
    pages = page_pictures(calling_list(tmp_path, Printing(size=size)), tmp_path, 50)
    there = sorted(LOOKED_AT.glob(f"calling-list-{size}-*.png"))
    assert len(pages) == len(there)
    for page, known in zip(pages, there, strict=True):
        told = f"look at the pictures in {tmp_path} beside {known}"
        assert strays(page, Image.open(known).convert("L")) < SAME_PAGE, told


def test_a_page_whose_text_stands_two_millimetres_lower_is_noticed():
    for known in LOOKED_AT.glob("*.png"):
        page = Image.open(known).convert("L")
        lower = Image.new("L", page.size, 255)
        lower.paste(page, (0, 4))
        assert strays(lower, page) > SAME_PAGE


def test_the_pictures_that_were_looked_at_are_there():
    assert {each.name[:15] for each in LOOKED_AT.glob("*.png")} == {
        "calling-list-a4",
        "calling-list-a6",
    }
