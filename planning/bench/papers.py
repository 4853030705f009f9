"""A day pack measured from its plan to the file, with WeasyPrint alone on the same finished HTML.

Both are asked in turn, and by the clock on the wall, since ours draws in a process of its own.
"""

from __future__ import annotations

import gc
from datetime import date
from statistics import median
from time import perf_counter
from typing import Any

from planning.compute.day import plan_wedding
from planning.demo import orchard_barn, two_days, winter_hall
from planning.paper.part import NOBODY
from planning.paper.sheets import BY_KEY
from planning.paper.subject import Subject
from planning.pdf import STATIC, paper_html, paper_pdf
from planning.press.draw import fetcher, weasyprint
from studio.models import Studio

WORK = "day pack"
GOAL = 1.15  # times WeasyPrint alone
A_PAGE = 0.2  # seconds
WEDDINGS = (orchard_barn, winter_hall, two_days)
TODAY = date(2026, 11, 24)
ROUNDS = 5
HEAD = (
    "| work | pages | ours, median | a page | WeasyPrint | times | goal |\n"
    "|---|---|---|---|---|---|---|"
)


def subjects() -> list[Subject]:
    """Invented weddings, planned; what their pictures would take is the same for both."""
    studio = Studio(name="Marigold Lane Photography")
    briefs = [module.wedding(TODAY).brief for module in WEDDINGS]
    return [Subject(plan_wedding(brief), studio) for brief in briefs]


def measured(rounds: int = ROUNDS) -> list[dict[str, Any]]:
    return [_measured(subject, rounds) for subject in subjects()]


def _measured(subject: Subject, rounds: int) -> dict[str, Any]:
    """Seconds of the clock; the first of each is not counted, it loads what both need."""
    sheet = BY_KEY["day-pack"]
    html = paper_html(subject, sheet)
    ours, alone = [], []
    pages = _alone(html)[1]
    paper_pdf(_anew(subject), sheet)
    gc.collect()
    for _round in range(rounds):
        alone.append(_alone(html)[0])
        began = perf_counter()
        paper_pdf(_anew(subject), sheet, NOBODY)
        ours.append(perf_counter() - began)
    return {
        "work": f"{WORK}, {subject.brief.names}",
        "pages": pages,
        "median": median(ours),
        "a_page": median(ours) / pages,
        "weasyprint": median(alone),
        "times": median(ours) / median(alone),
        "goal": GOAL,
    }


def _anew(subject: Subject) -> Subject:
    """Nothing kept from the last time but the plan."""
    return Subject(subject.plan, subject.studio)


def _alone(html: str) -> tuple[float, int]:
    source = weasyprint().HTML(
        string=html, base_url=STATIC.as_uri() + "/", url_fetcher=fetcher(STATIC)
    )
    began = perf_counter()
    document = source.render(pdf_variant="pdf/ua-1")
    document.write_pdf(pdf_variant="pdf/ua-1")
    return perf_counter() - began, len(document.pages)


def as_line(row: dict[str, Any]) -> str:
    return (
        f"| {row['work']} | {row['pages']} | {row['median']:.2f} s | {row['a_page']:.3f} s "
        f"| {row['weasyprint']:.2f} s | {row['times']:.2f} | at most {row['goal']} |"
    )
