"""Every paper of the demo season, page by page: no page is nearly empty, no line stands alone."""

import pytest

from intake.models import Wedding
from planning.paper.printing import Printing
from planning.paper.sheets import SHEETS
from planning.paper.subject import subject_of
from planning.pdf import STATIC, paper_html, to_print
from planning.press.draw import Job, draw
from tests.outside import needs

from .pages import complaints, pages_of
from .test_demo import demo

HEAD = (
    '<html lang="en"><title>x</title><link rel="stylesheet" href="pack.css">'
    '<header class="running"><span>Head</span></header><div class="footing">Foot</div>'
)
FULL = "<p>Words that fill a page, one line after the other.</p>" * 20
GAP = '<div style="height: {}mm"></div>'
RUNNING = "<p>" + "Words that go on from page to page. " * 12 + "</p>"


def told_of(folder, html, size="a4"):
    pdf = folder / "paper.pdf"
    pdf.write_bytes(draw(Job(html, STATIC, size)))
    return list(complaints(pages_of(pdf, size), html))


@pytest.mark.large
@pytest.mark.django_db
@pytest.mark.parametrize("size", ["a4", "a6-pages"])
def test_no_page_of_the_demo_season_is_one_to_be_ashamed_of(tmp_path, size):
    needs("pdftotext")
    demo("--no-serve", "--json")
    how, found, drawn = Printing(size=size), [], set()
    for wedding in Wedding.objects.order_by("pk"):
        subject = subject_of(wedding)
        for sheet in [each for each in SHEETS if to_print(subject, each)]:
            for reader in sheet.readers(subject):
                html = paper_html(subject, sheet, reader, how)
                name = f"{wedding.public_id}, {sheet.key} {reader.name}"
                found += [f"{name}: {told}" for told in told_of(tmp_path, html, size)]
                drawn.add(sheet.key)
    assert not found, "\n".join(found)
    assert {"day-pack", "calling-list", "coordinator", "suppliers", "agenda"} <= drawn


def test_full_pages_are_nothing_to_complain_of(tmp_path):
    needs("pdftotext")
    assert told_of(tmp_path, f"{HEAD}<h2>Title</h2>{FULL}") == []


@pytest.mark.parametrize(
    ("body", "told"),
    [(f'<p>Alone</p><div class="fresh">{FULL}</div>', "page 1 of 2 is filled to 0.0"),
     (f'{FULL}<p class="fresh">Alone</p>', "page 2 of 2 is filled to 0.0"),
     (f'{FULL}<h2>Title</h2><div class="fresh">{FULL}</div>', "page 1 ends with the heading Title"),
     (f'<style>html {{ orphans: 1; widows: 1 }}</style>{GAP.format(237)}{RUNNING}{FULL}',
      "page 2 begins with one line of what began before")],
    ids=["a page with one line", "a last page with one line", "a heading last", "a line alone"],
)  # fmt: skip
def test_a_page_to_be_ashamed_of_is_told(tmp_path, body, told):
    needs("pdftotext")
    assert any(each.startswith(told) for each in told_of(tmp_path, HEAD + body))
