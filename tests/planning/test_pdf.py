"""The day pack as a file: what it says, how it is drawn, and what it may load."""

import subprocess
from dataclasses import replace
from datetime import date

import pytest
from pypdf import PdfReader

from planning.compute.planned import Turn
from planning.compute.values import Care, Contact, Group
from planning.paper.subject import Reader
from planning.pdf import STATIC
from planning.press.draw import PangoMissingError, fetcher, weasyprint
from studio.models import Studio

from .drawn import pdf_of
from .glyphs import drawn_as_written
from .plans import make_block, make_plan

STUDIO = Studio(name="Marigold Lane Photography")
NAMES = [
    "Łukasz",
    "Žáček",
    "Nguyễn",
    "Þóra",
    "O’Neill",
    "Ðorđe",
    "Çelik",
    "Dvořák",
    "Åse",
    "Ștefan",
]


def write(tmp_path, plan):
    path = tmp_path / "pack.pdf"
    path.write_bytes(pdf_of(plan, STUDIO))
    return path


def ordinary_plan():
    groups = [Group(f"g{i}", f"Group {i}", tuple(NAMES[: 6 - i])) for i in range(5)]
    turns = tuple(Turn(i + 1, group, 3.1) for i, group in enumerate(groups))
    plan = make_plan(make_block(date(2027, 6, 12), "14:00", 25, "Europe/London", fixed=True))
    return replace(plan, turns=turns)


@pytest.fixture(scope="module")
def pack(tmp_path_factory):
    return write(tmp_path_factory.mktemp("pack"), ordinary_plan())


@pytest.mark.parametrize("name", NAMES[:6])
def test_a_name_is_drawn_with_its_own_letters(pack, name):
    assert drawn_as_written(pack, name)


def test_the_glyph_check_can_fail(pack):
    assert not drawn_as_written(pack, "Xanthippe")


def test_groups_stand_in_their_order(pack):
    text = "\n".join(page.extract_text() for page in PdfReader(pack).pages)
    at = [text.index(f"Group {i}") for i in range(5)]
    assert at == sorted(at)
    assert text.count("☐") >= 5


def test_the_file_names_its_language_and_title(pack):
    reader = PdfReader(pack)
    assert reader.trailer["/Root"]["/Lang"] == "en-gb"
    assert "Day pack" in reader.metadata.title


def test_an_answer_cannot_make_the_pack_load_a_file(tmp_path):
    secret = tmp_path / "secret.txt"
    secret.write_text("not for the pack")
    plan = ordinary_plan()
    trick = f'<link rel="attachment" href="{secret.as_uri()}"><img src="{secret.as_uri()}">'
    path = write(tmp_path, replace(plan, brief=replace(plan.brief, matters=trick)))
    reader = PdfReader(path)
    assert not reader.attachments
    assert b"not for the pack" not in path.read_bytes()
    assert "attachment" in "".join(page.extract_text() for page in reader.pages)  # shown as text


def test_the_fetcher_refuses_what_is_not_ours():
    for address in ("file:///etc/passwd", "http://127.0.0.1:9/", "data:text/html,hello"):
        with pytest.raises(ValueError, match="not on the list"):
            fetcher(STATIC).fetch(address)


def test_the_same_plan_is_the_same_file():
    assert pdf_of(ordinary_plan(), STUDIO) == pdf_of(ordinary_plan(), STUDIO)


def test_an_empty_plan_still_makes_a_pack(tmp_path):
    plan = make_plan()
    plan = replace(plan, brief=replace(plan.brief, places=()), days=())
    assert len(PdfReader(write(tmp_path, plan)).pages) >= 2


def test_without_pango_one_line_says_what_to_install(monkeypatch):
    import builtins

    real = builtins.__import__

    def broken(name, *args, **kwargs):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", broken)
    with pytest.raises(PangoMissingError, match="apt-get install libpango"):
        weasyprint()


@pytest.mark.skipif(
    subprocess.run(["which", "qpdf"], capture_output=True, check=False).returncode != 0,
    reason="qpdf is not here (.ci/run installs it)",
)
def test_qpdf_finds_the_file_sound(pack):
    run = subprocess.run(["qpdf", "--check", pack], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr


def test_the_calling_list_holds_no_phones_and_no_private_notes(tmp_path):
    plan = ordinary_plan()
    brief = replace(
        plan.brief,
        cares=(Care("seat", "Łukasz", note="after the operation", says="cannot stand long"),),
        helpers=(Contact("Ragnar", phone="07700 900116"),),
        anything_else="the uncles do not speak",
    )
    path, told = tmp_path / "list.pdf", replace(plan, brief=brief)
    path.write_bytes(pdf_of(told, STUDIO, "calling-list", Reader("1", "Ragnar")))
    text = "".join(page.extract_text() for page in PdfReader(path).pages)
    assert "Group 0" in text
    for private in ("07700", "operation", "cannot stand", "uncles", "01632"):
        assert private not in text
