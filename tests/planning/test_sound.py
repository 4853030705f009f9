"""Every paper before judges that are not ours: is the file sound, tagged, and drawn in our fonts?

PDF/UA-1 is ISO 14289-1. Neither of its two checkers covers it whole, so each counts as a second
opinion. What they only warn of is WeasyPrint's own: heads and feet of pages are tagged as content.
"""

import json
import re
import subprocess

import pytest

from planning.paper.printing import Printing
from planning.paper.sheets import BY_KEY
from planning.paper.subject import subject_of
from planning.pdf import paper_pdf
from tests.outside import needs, outside

from .marked import marked_wedding
from .test_privacy import PAPERS, ROWS

HOW = {
    "a4": Printing(),
    "grey": Printing(grey=True),
    "a6": Printing(size="a6"),
    "a6-pages": Printing(size="a6-pages"),
}
FILES = [(letter, how) for how in ("a4", "a6-pages") for letter in PAPERS]
FILES += [("P", "grey"), ("P", "a6"), ("C", "a6")]
OURS = re.compile(r"[A-Z]{6}\+Source-(Sans-3|Serif-4)(-Display)?(,|(-\w+)+)?")
pytestmark = [pytest.mark.large, pytest.mark.django_db]


@pytest.fixture(scope="module")
def files(tmp_path_factory, django_db_setup, django_db_blocker):
    """Each paper of a wedding that has everything, drawn once."""
    from django.db import transaction

    folder, drawn = tmp_path_factory.mktemp("papers"), {}
    with django_db_blocker.unblock(), transaction.atomic():
        subject = subject_of(marked_wedding(ROWS))
        for letter, how in FILES:
            paper, key = PAPERS[letter]
            sheet = BY_KEY[paper]
            reader = next(each for each in sheet.readers(subject) if each.key == key)
            drawn[letter, how] = folder / f"{paper}-{how}.pdf"
            drawn[letter, how].write_bytes(paper_pdf(subject, sheet, reader, HOW[how]))
        transaction.set_rollback(True)
    return drawn


def run(*command):
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)


each_file = pytest.mark.parametrize("file", FILES, ids="-".join)


@each_file
def test_qpdf_finds_it_sound(files, file):
    needs("qpdf")
    found = run("qpdf", "--check", files[file])
    assert found.returncode == 0, found.stdout + found.stderr
    assert "WARNING" not in found.stdout + found.stderr


@each_file
def test_poppler_finds_its_tags_and_its_title(files, file):
    needs("pdfinfo")
    told = run("pdfinfo", files[file])
    assert re.search(r"Tagged: +yes", told.stdout)
    assert re.search(r"Title: +\S", told.stdout)
    tree = run("pdfinfo", "-struct", files[file])
    assert not tree.stderr
    assert {"Document", "H1", "Sect"} <= set(tree.stdout.split())


@each_file
def test_poppler_finds_every_font_in_the_file_and_ours_alone(files, file):
    needs("pdffonts")
    _head, _line, *fonts = run("pdffonts", files[file]).stdout.splitlines()
    assert fonts
    for line in fonts:
        name, embedded = line.split()[0], line.split()[-5]
        assert OURS.fullmatch(name), line
        assert embedded == "yes", line


@each_file
def test_one_checker_of_pdf_ua_finds_no_error(files, file):
    outloud = outside("pdfua/bin/outloud")
    found = run(outloud, "--no-info", files[file])
    assert found.returncode == 0, found.stdout + found.stderr
    assert "PDF/UA-1 checkpoints" in found.stdout


@each_file
def test_another_checker_of_pdf_ua_finds_no_error(files, file):
    pdfua = outside("pdfua/bin/pdfua")
    found = run(pdfua, "check", files[file])
    assert "errors=0" in found.stdout, found.stdout + found.stderr


@pytest.mark.parametrize("file", [file for file in FILES if file[1] != "a6"], ids="-".join)
def test_no_page_is_empty_or_holds_a_line_alone(files, file):
    needs("pdftotext")
    *pages, _end = run("pdftotext", "-layout", files[file], "-").stdout.split("\f")
    for number, page in enumerate(pages, 1):
        _head, *lines, _foot = [line for line in page.splitlines() if line.strip()]
        assert len(lines) >= 2, f"page {number} of {len(pages)}"


def test_both_checkers_can_find_an_error(files, tmp_path):
    """The same file without its tags."""
    bare = tmp_path / "bare.pdf"
    plain = run("qpdf", "--json-output", files["C", "a4"], "-").stdout
    told = json.loads(plain)
    root = next(o["value"] for o in told["qpdf"][1].values() if _is_catalogue(o))
    del root["/StructTreeRoot"], root["/MarkInfo"]
    (tmp_path / "bare.json").write_text(json.dumps(told))
    run("qpdf", "--json-input", tmp_path / "bare.json", bare)
    assert run(outside("pdfua/bin/outloud"), "--no-info", bare).returncode != 0
    assert "errors=0" not in run(outside("pdfua/bin/pdfua"), "check", bare).stdout


def _is_catalogue(each):
    return isinstance(each.get("value"), dict) and each["value"].get("/Type") == "/Catalog"


def test_a_folded_pack_has_all_the_pages_four_to_a_sheet(files):
    needs("pdfinfo")
    count = {how: int(re.search(r"Pages: +(\d+)", run("pdfinfo", files["P", how]).stdout)[1])
             for how in HOW}  # fmt: skip
    assert count["a6"] == -(-count["a6-pages"] // 4)
    assert count["grey"] == count["a4"]
