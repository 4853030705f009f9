"""Papers of plans that have no rows behind them, as HTML and as PDF."""

import re

from planning.paper.printing import Printing
from planning.paper.sheets import BY_KEY
from planning.paper.subject import Reader, Subject
from planning.pdf import paper_html, paper_pdf

NOBODY, AS_USUAL = Reader("", ""), Printing()


def html_of(plan, studio, paper="day-pack", reader=NOBODY, how=AS_USUAL):
    return paper_html(Subject(plan, studio), BY_KEY[paper], reader, how)


def pdf_of(plan, studio, paper="day-pack", reader=NOBODY, how=AS_USUAL):
    return paper_pdf(Subject(plan, studio), BY_KEY[paper], reader, how)


def offered(response):
    """The addresses of the papers that the page Papers offers."""
    return set(re.findall(r'formaction="([^"]+)"', response.content.decode()))
